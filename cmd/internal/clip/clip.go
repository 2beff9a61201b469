// Package clip is a sequence as the commands and the page have it: read from its folder,
// its shots planned, and joined.
package clip

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/report/sequencereport"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/setup"
	"seamrail/plot/sheet"
)

// Joined is a sequence with all its shots planned.
type Joined struct {
	Sequence sequence.Sequence
	Jobs     []*job.Job // one for each entry, in order
	Clip     *sequence.Clip
	builtIn  bool // its shots lie in no folder, and have no logs
}

// Read reads a sequence, with over in the place of what it says, and its
// shots, plans them and joins them.
func Read(file string, in io.Reader, over ...source.Override) (Joined, error) {
	return ReadUntil(context.Background(), file, in, over...)
}

// ReadUntil is Read until ctx ends, whose error it then returns.
func ReadUntil(ctx context.Context, file string, in io.Reader, over ...source.Override) (Joined, error) {
	folder, name, err := openFolder(file, in)
	if err != nil {
		return Joined{}, err
	}
	defer folder.close()
	data, err := folder.read(name)
	if err != nil {
		return Joined{}, err
	}
	s, err := sequence.Decode(folder.path(name), data, over, folder.beside(name))
	if err != nil {
		return Joined{}, textfile.Rather(err, folder.path(name), data, filekind.Sequence)
	}
	jobs, err := folder.shots(ctx, s)
	if err != nil {
		return Joined{}, err
	}
	planned := make([]sequence.Planned, len(jobs))
	for i, j := range jobs {
		planned[i] = sequence.Planned{Shot: j.Shot, Trajectory: j.Trajectory, Beats: j.Cues.Needs(int64(j.Plan.Rounds))}
	}
	clip, err := sequence.Join(s, planned)
	return Joined{s, jobs, clip, folder.root == nil}, err
}

// Report is what the report of the clip tells, with what was filmed of it.
func (j Joined) Report() (sequencereport.Data, error) {
	d := j.plans()
	t, _, err := j.Timeline()
	if err != nil {
		return d, err
	}
	d.Timeline = &t
	d.Proposals, err = j.Clip.Propose()
	return d, err
}

// plans is what is told of the plans alone.
func (j Joined) plans() sequencereport.Data {
	d := sequencereport.Data{Clip: j.Clip, Defaults: j.Sequence.Defaults}
	seen := map[string]bool{}
	for i, one := range j.Jobs {
		name := j.Sequence.Entries[i].File
		if seen[name] {
			continue
		}
		seen[name] = true
		if err := one.Unable(); err != nil {
			d.Troubles = append(d.Troubles, sequencereport.Trouble{File: name, Text: err.Error()})
		}
		d.Heads = append(d.Heads, sequencereport.Head{File: name, Headline: one.Headline()})
	}
	return d
}

// Trouble is an error of limits where a shot must not run as it is, else nil.
func (j Joined) Trouble() error {
	if n := len(j.plans().Troubles); n > 0 {
		return exit.Limited("%s of the sequence must not run as it is", plain.Count(n, "shot"))
	}
	return nil
}

// openFolder finds the folder of a sequence and the name of its file there.
func openFolder(file string, in io.Reader) (folder, string, error) {
	switch file {
	case "":
		files, err := starter.Clip()
		return folder{held: files}, starter.SequenceName, err
	case textfile.Stdin:
		data, err := io.ReadAll(io.LimitReader(in, textfile.Largest))
		if err != nil {
			return folder{}, "", errors.New("cannot read the sequence from standard input")
		}
		folder, err := rootOf(".")
		folder.held = map[string][]byte{stdinName: data}
		return folder, stdinName, err
	}
	return folderOf(file)
}

// stdinName is what faults call a sequence from standard input.
const stdinName = "stdin"

// Sheets are the sheets of a sequence, one for each of its films, in the order to film
// them in.
func (j Joined) Sheets() []sheet.Page {
	var pages []sheet.Page
	for turn, film := range j.Clip.Order.Order {
		k := slices.IndexFunc(j.Clip.Pieces, func(p sequence.Piece) bool { return p.Film == film })
		page := format.Sheet(j.Jobs[k])
		f := j.Clip.Films[film]
		page.Facts = append(page.Facts, fmt.Sprintf("Shot %d of %d on the day, for %s: %s wanted. Rig: %s. Light: %s.",
			turn+1, len(j.Clip.Films), j.Clip.Title, plain.Count(f.Takes, "take"), stated(f.Setup.Rig), stated(f.Setup.Light)))
		page.Takes = max(page.Takes, f.Takes)
		pages = append(pages, page)
	}
	return pages
}

// stated is what a sequence says of rig or light, or that it says nothing.
func stated(text string) string {
	if text == "" {
		return "as it is"
	}
	return text
}

// folder is where a sequence and its shots lie. Nothing outside it can be
// named, by a link neither.
type folder struct {
	dir  string            // as the command line has it
	root *os.Root          // nil for the built-in sequence
	held map[string][]byte // files that are not on the disk
}

func rootOf(dir string) (folder, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return folder{}, textfile.Unread(dir, err)
	}
	return folder{dir: dir, root: root}, nil
}

// folderOf opens the folder a file is in. The file itself may be a link.
func folderOf(file string) (folder, string, error) {
	data, err := textfile.Read(file)
	if err != nil {
		return folder{}, "", err
	}
	f, err := rootOf(filepath.Dir(file))
	name := filepath.Base(file)
	f.held = map[string][]byte{name: data}
	return f, name, err
}

func (f folder) close() {
	if f.root != nil {
		_ = f.root.Close()
	}
}

// path is how a file of the folder is called in faults.
func (f folder) path(name string) string {
	if f.dir == "" || f.dir == "." {
		return name
	}
	return filepath.Join(f.dir, filepath.FromSlash(name))
}

// read returns what a file holds, at most textfile.Largest bytes of it.
func (f folder) read(name string) ([]byte, error) {
	if data, ok := f.held[name]; ok {
		return data, nil
	}
	if f.root == nil {
		return nil, fs.ErrNotExist
	}
	info, err := f.root.Stat(filepath.FromSlash(name)) // before it is opened: a pipe would keep us waiting
	if err != nil {
		return nil, err
	}
	if err := atomicfile.Plain("it", info); err != nil {
		return nil, err
	}
	file, err := f.root.Open(filepath.FromSlash(name))
	if err != nil {
		return nil, err
	}
	defer func() { _ = file.Close() }()
	atomicfile.Read(f.path(name))
	return io.ReadAll(io.LimitReader(file, textfile.Largest))
}

// shots reads and plans every shot of a sequence, each file once. The error
// holds what is wrong with all of them.
func (f folder) shots(ctx context.Context, s sequence.Sequence) ([]*job.Job, error) {
	var faults fault.List
	var others []error
	known := map[string]*job.Job{}
	jobs := make([]*job.Job, len(s.Entries))
	for i, e := range s.Entries {
		if j, ok := known[e.File]; ok {
			jobs[i] = j
			continue
		}
		j, err := f.shot(ctx, s, e)
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		var list fault.List
		switch {
		case errors.As(err, &list):
			faults = append(faults, list...)
		case err != nil:
			others = append(others, err)
		}
		jobs[i], known[e.File] = j, j
	}
	if err := faults.Err(); err != nil {
		others = append([]error{err}, others...)
	}
	return jobs, errors.Join(others...)
}

// shot reads and plans one shot.
func (f folder) shot(ctx context.Context, s sequence.Sequence, e sequence.Entry) (*job.Job, error) {
	data, err := f.read(e.File)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fault.List{e.Missing(s.File, f.near(e.File))}
	case err != nil:
		return nil, fault.List{e.Unfit(s.File, readingFails(err))}
	}
	under := setup.Files{Open: f.under, Beside: f.beside(e.File), Under: s.Setup}
	decoded, faults := under.Understand(f.path(e.File), data, nil)
	if len(faults) > 0 {
		if is := filekind.Of(data); is != filekind.Unknown && is != filekind.Shot {
			return nil, fault.List{e.Unfit(s.File, "is "+is.String()+", and a sequence is made of shots")}
		}
	}
	from := job.Source{}
	if f.root != nil {
		from.Shot = f.path(e.File)
	} else {
		decoded.RigFrom = "" // the built-in rig, whoever names it
	}
	r, err := from.Joined(&decoded, faults)
	var list fault.List
	switch {
	case errors.As(err, &list) && len(faults) > 0:
		return nil, err
	case err != nil:
		return nil, fmt.Errorf("%s: %w", f.path(e.File), err)
	}
	return job.PlanUntil(ctx, decoded, r)
}

// beside reads what a file of the folder names beside itself, nothing outside the folder.
func (f folder) beside(file string) source.Beside {
	return func(name string) ([]byte, error) {
		data, err := f.read(path.Join(path.Dir(file), filepath.ToSlash(name)))
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil, errors.New("it is not there")
		case err != nil:
			return nil, errors.New("it " + readingFails(err))
		}
		return data, nil
	}
}

// under reads what lies under a shot: as it does for a shot by itself, but for the
// built-in ones.
func (f folder) under(from, name string) (setup.Found, error) {
	if f.root != nil {
		return textfile.Under(from, name)
	}
	found := setup.Found{Name: path.Join(path.Dir(from), name)}
	data, ok := f.held[found.Name]
	if !ok {
		return found, fs.ErrNotExist
	}
	found.Data = data
	return found, nil
}

// readingFails words why a file that is there cannot be read.
func readingFails(err error) string {
	cause, system := atomicfile.Cause(err)
	if system && strings.Contains(cause.Error(), "escapes") {
		return "leads out of the folder of the sequence"
	}
	return "cannot be read: " + cause.Error()
}

// near is the name of a file that is there and may be meant, or "".
func (f folder) near(name string) string {
	if f.root == nil {
		return ""
	}
	dir, err := f.root.Open(filepath.FromSlash(path.Dir(name)))
	if err != nil {
		return ""
	}
	defer func() { _ = dir.Close() }()
	names, err := dir.Readdirnames(maxNames)
	if err != nil {
		return ""
	}
	var toml []string
	for _, n := range names {
		if strings.HasSuffix(n, ".toml") {
			toml = append(toml, n)
		}
	}
	if near := source.Nearest(path.Base(name), toml); near != "" {
		return path.Join(path.Dir(name), near)
	}
	return ""
}

// maxNames is how many names of a folder are looked at for one that is meant.
const maxNames = 2000
