package page

import (
	"context"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"seamrail/export/report/sequencereport"

	"seamrail/cmd/internal/acquaint"
	"seamrail/cmd/internal/clip"
	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/cmd/internal/search"
	"seamrail/export/cue/cuesheet"
	"seamrail/motion/camera/picture"
	"seamrail/motion/turntable/spin"
)

// spin answers as the spin command does with --json, under some of its flags, and says what
// takes each loop up.
func (s *desk) spin(ctx context.Context, q asking) (*Spun, error) {
	p, err := s.plannedTo(ctx, q.Text, posed)
	if err != nil {
		return nil, err
	}
	about, err := spinAsked(q.Flags)
	if err != nil {
		return nil, err
	}
	d, err := about.FindUntil(ctx, p.Plan)
	if err != nil {
		return nil, err
	}
	return spunOf(p, d), nil
}

// fit answers as the fit command does with --json, under some of its flags. That no loop
// would do is an answer.
func (s *desk) fit(ctx context.Context, q asking) (*Fitted, error) {
	x, m, err := s.doc.decode(q.Text)
	if err != nil {
		return nil, err
	}
	about, err := fitAsked(q.Flags)
	if err != nil {
		return nil, err
	}
	d, err := about.FindUntil(ctx, x, m, "", nil)
	if err != nil {
		return nil, err
	}
	return fittedOf(x, d), nil
}

// cues answers with the sheet that the cues command prints, under some of its flags.
func (s *desk) cues(q asking) (*textAnswer, error) {
	p, err := s.planned(q.Text)
	if err != nil {
		return nil, err
	}
	about, err := cuesAsked(q.Flags)
	if err == nil {
		err = format.Cued(p)
	}
	if err != nil {
		return nil, err
	}
	sheet := p.Cues
	if !about.ignoreTakes {
		if sheet, err = logbook.Habitual(sheet, s.shot); err != nil {
			return nil, err
		}
	}
	var out strings.Builder
	err = cuesheet.Write(&out, sheet.ForTake(int64(p.Plan.Rounds), int64(about.countIn)))
	return &textAnswer{out.String()}, err
}

type sequenceQuestion struct {
	File string `json:"file"`
}

// sequence answers of a sequence file in the folder.
func (s *desk) sequence(ctx context.Context, q sequenceQuestion) (*sequencereport.Document, error) {
	if _, err := s.doc.read(q.File); err != nil { // also that it is in the folder
		return nil, err
	}
	j, err := clip.ReadUntil(ctx, filepath.Join(s.doc.root.Name(), filepath.FromSlash(q.File)), nil)
	if err != nil {
		return nil, err
	}
	for _, one := range j.Jobs {
		if err := one.Foretell(ctx); err != nil {
			return nil, err
		}
	}
	d, err := j.Report()
	if err != nil {
		return nil, err
	}
	out := d.Facts().(sequencereport.Document)
	return &out, nil
}

// asking is a question about a text, with what changes it, by the names of the flags of
// the command that asks the same.
type asking struct {
	Text  string            `json:"text"`
	Flags map[string]string `json:"flags"`
}

// setting reads a text into one value of a question.
type setting func(text string) error

// set sets what the page may set of a command's question: nothing else, and nothing that
// names a file.
func set(command string, flags map[string]string, may map[string]setting) error {
	for _, name := range slices.Sorted(maps.Keys(flags)) {
		to, ok := may[name]
		if !ok {
			return fmt.Errorf("the page does not set --%s of %s", name, command)
		}
		if err := to(flags[name]); err != nil {
			return fmt.Errorf("--%s %q: %w", name, flags[name], err)
		}
	}
	return nil
}

func spinAsked(flags map[string]string) (search.Spin, error) {
	q := search.Spin{Most: spin.DefaultMost}
	err := set("spin", flags, map[string]setting{
		"between": toList(&q.Between), "within": toText(&q.Within), "symmetry": toText(&q.Symmetry), "radius": toText(&q.Radius),
		"pixels-per-mm": toText(&q.Pixels), "offers": toList(&q.Offers), "cycles": toText(&q.Cycles), "most": toNumber(&q.Most),
	})
	return q, err
}

func fitAsked(flags map[string]string) (search.Fit, error) {
	q := search.Fit{Accept: picture.Fair.String()}
	err := set("fit", flags, map[string]setting{"between": toList(&q.Between), "laws": toList(&q.Laws), "accept": toText(&q.Accept)})
	return q, err
}

// cueQuestion is what the page asks of cues.
type cueQuestion struct {
	countIn     int // s
	ignoreTakes bool
}

func cuesAsked(flags map[string]string) (cueQuestion, error) {
	q := cueQuestion{countIn: job.CountIn}
	err := set("cues", flags, map[string]setting{"count-in": toNumber(&q.countIn), "ignore-takes": toSwitch(&q.ignoreTakes)})
	if err == nil && (q.countIn < 0 || q.countIn > job.MaxCountIn) {
		err = fmt.Errorf("--count-in %d must be from 0 to %d seconds", q.countIn, job.MaxCountIn)
	}
	return q, err
}

func connectAsked(flags map[string]string) (acquaint.Options, error) {
	var q acquaint.Options
	err := set("connect", flags, map[string]setting{"baud": toNumber(&q.Baud)})
	if err == nil && q.Baud < 0 {
		err = fmt.Errorf("--baud %d must be above 0, or 0 for the usual speeds", q.Baud)
	}
	return q, err
}

func toText(to *string) setting {
	return func(s string) error { *to = s; return nil }
}

func toList(to *[]string) setting {
	return func(s string) error {
		if s != "" {
			*to = strings.Split(s, ",")
		}
		return nil
	}
}

func toNumber(to *int) setting {
	return func(s string) (err error) { *to, err = strconv.Atoi(s); return err }
}

func toSwitch(to *bool) setting {
	return func(s string) (err error) { *to, err = strconv.ParseBool(s); return err }
}
