package footage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/laid"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/report/footagereport"
	"seamrail/motion/base/plain"
)

// Keep is which films are to be kept as which takes.
type Keep struct {
	Of    []string // "B.mov=2", or "B.mov" for the log to tell
	Trust string   // what counts where picture and sync mark differ; "" for neither
	Now   func() time.Time

	job  *job.Job
	shot string
	log  logbook.Filmable
	list []*kept // in the order in which they are to be kept
}

// kept is a film that is to be kept.
type kept struct {
	film string // as it is named among those to look through
	file string // as the log has it
	take int    // 0 where the log is to tell
	by   string // how the take is known
	seen *seen
}

func (k *Keep) register(f *pflag.FlagSet) {
	f.StringArrayVar(&k.Of, "keep", nil, "keep a film as a take: `FILM=N`, or FILM where the log tells which take it is")
	f.StringVar(&k.Trust, "trust", "", "where they have frame 0 apart, `WHICH` counts: picture or mark")
}

// begin holds what is to be kept against the films and the log, before anything is looked through,
// since that may take minutes.
func (k *Keep) begin(shot string, films []string, j *job.Job) error {
	switch {
	case len(k.Of) == 0 && k.Trust == "":
		return nil
	case len(k.Of) == 0:
		return exit.Misused("--trust is of a film that is to be kept: add --keep")
	case k.Trust != "" && k.Trust != laid.TrustPicture && k.Trust != laid.TrustMark:
		return exit.Misused("--trust %q must be picture or mark", k.Trust)
	case j == nil || shot == "-":
		return exit.Misused("--keep writes to the log beside a shot: name its file with --shot")
	}
	k.job, k.shot = j, shot
	var faults []error
	for _, text := range k.Of {
		one, err := named(text, films)
		if err == nil {
			one.file, err = fileOf(one.film)
		}
		faults = append(faults, err)
		k.list = append(k.list, &one)
	}
	if err := errors.Join(append(faults, k.twice())...); err != nil {
		return err
	}
	var err error
	if k.log, err = logbook.Keepable(shot, j.Plan.Hash()); err != nil {
		return err
	}
	for _, one := range k.list {
		faults = append(faults, k.number(one))
	}
	return errors.Join(append(faults, k.twice())...)
}

// named cuts the number of a take off the name of a film, which is one of those to look through.
func named(text string, films []string) (kept, error) {
	name, number := text, ""
	if n := strings.LastIndexByte(text, '='); n >= 0 && !slices.Contains(films, text) {
		name, number = text[:n], text[n+1:]
	}
	one := kept{by: logbook.ByNumber}
	for _, f := range films {
		if f == name || filepath.Base(f) == name {
			one.film = f
		}
	}
	if one.film == "" {
		return one, exit.Misused("--keep %q: %q is none of the films that are looked through, %s", text, plain.Text(name), strings.Join(films, ", "))
	}
	if number == "" && name == text {
		return one, nil
	}
	var err error
	if one.take, err = strconv.Atoi(strings.TrimSpace(number)); err != nil || one.take < 1 {
		return one, exit.Misused("--keep %q must end with the number of a take, such as %s=2", text, plain.Text(name))
	}
	return one, nil
}

// fileOf is what the log calls a film: its file or, of stills, their folder.
func fileOf(name string) (string, error) {
	if name == film.Stdin {
		return "", exit.Misused("--keep: what comes from standard input has no name that an edit could look for; write it to a file first")
	}
	if strings.ContainsAny(filepath.Base(name), "*?%[") {
		name = filepath.Dir(name)
	}
	if full, err := filepath.Abs(name); err == nil {
		name = full // "." is a folder with a name
	}
	return takelog.ClipName(filepath.Base(name))
}

// twice is an error where one film is to be two takes, or two films one.
func (k *Keep) twice() error {
	for n, a := range k.list {
		for _, b := range k.list[:n] {
			switch {
			case a.film == b.film:
				return exit.Misused("--keep names %s twice; a film is one take", a.file)
			case a.file == b.file:
				return exit.Misused("%s and %s are both called %s, and the log has the name alone; rename one of them", b.film, a.film, a.file)
			case a.take > 0 && a.take == b.take:
				return exit.Misused("--keep has take %d as %s and as %s; a take is one film", a.take, b.file, a.file)
			}
		}
	}
	return nil
}

// number sees that a take can be kept or, where none was said, looks for the one whose clip is
// called as the film is.
func (k *Keep) number(one *kept) error {
	if one.take == 0 {
		take, ok := k.log.Called(one.file)
		if !ok {
			one.by = logbook.ByTime
			return nil
		}
		one.take, one.by = take, logbook.ByClip
	}
	return k.fits(one)
}

func (k *Keep) fits(one *kept) error {
	t, err := k.log.Take(one.take, one.file)
	if err == nil && t.End.Rounds != int64(k.job.Plan.Rounds) {
		err = fmt.Errorf("take %d ran %s, and it would be laid over %d: say --rounds %d", t.Number, plain.Count(t.End.Rounds, "round"), k.job.Plan.Rounds, t.End.Rounds)
	}
	return err
}

// saw takes in a film that was looked through.
func (k *Keep) saw(s *seen) {
	for _, one := range k.list {
		if one.film == s.name {
			one.seen = s
		}
	}
}

// write keeps all films, or none, and puts on each what was kept of it.
func (k *Keep) write() error {
	if len(k.list) == 0 {
		return nil
	}
	var marks []takelog.Record
	var words []*footagereport.Kept
	var faults []error
	for _, one := range k.list {
		r, w, err := k.record(one)
		faults = append(faults, err)
		marks, words = append(marks, r), append(words, w)
	}
	if err := errors.Join(append(faults, k.twice())...); err != nil {
		return err
	}
	if err := logbook.Mark(k.shot, 0, marks, k.Now()); err != nil {
		return err
	}
	for n, one := range k.list {
		one.seen.data.Kept = words[n]
	}
	return nil
}

// wrote is when a film was last written to; the zero time for what is no plain file.
func wrote(name string) time.Time {
	info, err := os.Stat(name)
	if err != nil || !info.Mode().IsRegular() {
		return time.Time{}
	}
	return info.ModTime()
}
