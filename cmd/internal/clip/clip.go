// Package clip is a sequence as the commands and the page have it: read from its folder,
// its shots planned, and joined.
package clip

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/sequencereport"
	"seamrail/export/textpage"
	"seamrail/motion/filekind"
	"seamrail/motion/sequence"
	"seamrail/motion/source"
	"seamrail/plot/sheet"
)

// Joined is a sequence with all its shots planned.
type Joined struct {
	Sequence sequence.Sequence
	Jobs     []*job.Job // one for each entry, in order
	Clip     *sequence.Clip
}

// Read reads a sequence, with over in the place of what it says, and its
// shots, plans them and joins them.
func Read(file string, in io.Reader, over ...source.Override) (Joined, error) {
	folder, name, err := openFolder(file, in)
	if err != nil {
		return Joined{}, err
	}
	defer folder.close()
	data, err := folder.read(name)
	if err != nil {
		return Joined{}, err
	}
	s, err := sequence.Decode(folder.path(name), data, over)
	if err != nil {
		return Joined{}, textfile.Rather(err, folder.path(name), data, filekind.Sequence)
	}
	jobs, err := folder.shots(s)
	if err != nil {
		return Joined{}, err
	}
	planned := make([]sequence.Planned, len(jobs))
	for i, j := range jobs {
		planned[i] = sequence.Planned{Shot: j.Shot, Trajectory: j.Trajectory}
	}
	clip, err := sequence.Join(s, planned)
	return Joined{s, jobs, clip}, err
}

// Report is what the report of the clip tells.
func (j Joined) Report() sequencereport.Data {
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
	if n := len(j.Report().Troubles); n > 0 {
		return exit.Limited("%s of the sequence must not run as it is", textpage.Counted(n, "shot"))
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
			turn+1, len(j.Clip.Films), j.Clip.Title, textpage.Counted(f.Takes, "take"), setup(f.Setup.Rig), setup(f.Setup.Light)))
		page.Takes = max(page.Takes, f.Takes)
		pages = append(pages, page)
	}
	return pages
}

// setup is what a sequence says of rig or light, or that it says nothing.
func setup(text string) string {
	if text == "" {
		return "as it is"
	}
	return text
}
