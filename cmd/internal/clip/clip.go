// Package clip is a sequence as the commands and the page have it: read from its folder,
// its shots planned, and joined.
package clip

import (
	"errors"
	"fmt"
	"io"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/report/sequencereport"
	"seamrail/motion/filekind"
	"seamrail/motion/plain"
	"seamrail/motion/sequence"
	"seamrail/motion/source"
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
		if other := textfile.WrongKind(folder.path(name), data, filekind.Sequence); other != nil {
			err = other
		}
		return Joined{}, err
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

// Trouble is a LimitError where a shot must not run as it is, else nil.
func (j Joined) Trouble() error {
	if n := len(j.Report().Troubles); n > 0 {
		return &exit.LimitError{Text: fmt.Sprintf("%s of the sequence must not run as it is", plain.Counted(n, "shot"))}
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
