package places

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/plan/judge"
	"seamrail/motion/verify"
)

// Change is a mark that has not been written yet.
type Change struct {
	Place
	Text string // of the value
	File string // the shot
	Over string // the file under the shot that has the value now; "" for the shot itself
	// Wrong is what of the plan would not do with it, and what would fit instead; nothing
	// where the rig can run it.
	Wrong, Fits []string

	from, to []byte // the shot before and after
}

// ErrChanged is said where a file is no longer what was read of it.
var ErrChanged = errors.New("the shot was changed on disk meanwhile, and nothing was written: plan it anew, and mark again")

// Try is what a mark of a place makes of the shot of a source: its axis stands at so many
// mm or degrees. Nothing is written. It is an error where what comes out is no shot. A
// text that is not nil is what the shot has to be on disk.
func Try(x job.Source, p Place, at float64, known []byte) (Change, error) {
	c := Change{Place: p, File: x.Shot}
	if x.Shot == "" || x.Shot == textfile.Stdin {
		return c, fmt.Errorf("axis %s stands at %s; there is no shot file to write it to: \"seamrail new\" makes one", p.Axis, unit.Format(at, p.Now.Dim))
	}
	var err error
	if c.from, err = textfile.Read(x.Shot); err != nil {
		return c, err
	}
	if known != nil && !bytes.Equal(known, c.from) {
		return c, ErrChanged
	}
	if flag := x.Instead(p.Path, c.from); flag != "" {
		return c, fmt.Errorf("%s stands in the place of %s in this run; leave it out to mark that", flag, p.Path)
	}
	if err := c.set(at); err != nil {
		return c, err
	}
	j, err := x.JobOf(c.to)
	if err != nil {
		return c, fmt.Errorf("not written: %w", err)
	}
	c.Wrong, c.Fits = Wrong(j)
	return c, nil
}

// set puts the value into the text of the shot, in the unit that the file writes it in.
func (c *Change) set(at float64) error {
	s, _ := job.Files.Understand(c.File, c.from, nil)
	write := s.Laid.Set
	if write == nil {
		write = func(text []byte, path, value string) ([]byte, error) { return source.Set(c.File, text, path, value) }
	}
	var err error
	c.Text, c.Over = c.Says(at, s, c.from, textfile.Read)
	c.to, err = write(c.from, c.Path, c.Text)
	return err
}

// Wrong is what of a plan the rig could not run, and what would fit instead; nothing of
// one that it can. What the controller makes of it takes longer to tell, and is not in it.
func Wrong(j *job.Job) (wrong, fits []string) {
	wrong, fits = []string{}, []string{}
	beyond := j.Beyond()
	if beyond == nil {
		return wrong, fits
	}
	for _, b := range judge.Apart(j.Plan.Breaches()) {
		f := j.Plan.Fault(b)
		f.File, f.Line, f.Column = "", 0, 0
		wrong = append(wrong, f.String())
	}
	if len(wrong) == 0 {
		wrong = list.Map(j.Verdict.Failed(), func(f verify.Finding) string { return f.Check + ": " + f.Text })
	}
	if len(wrong) == 0 {
		wrong = []string{beyond.Error()}
	}
	return wrong, append(fits, j.Fits()...)
}

// Doubts is what would not do with the mark, and what would fit instead, a line each.
func (c Change) Doubts() []string {
	if len(c.Wrong) == 0 {
		return nil
	}
	out := []string{fmt.Sprintf("With %s = %q the rig cannot run the plan:", c.Path, c.Text)}
	for _, w := range c.Wrong {
		out = append(out, "  x "+w)
	}
	for _, f := range c.Fits {
		out = append(out, "  + "+f)
	}
	return out
}

// Same tells whether the shot says so already.
func (c Change) Same() bool { return bytes.Equal(c.from, c.to) }

// Write writes the mark, all of the shot else as it was, and returns the shot as it is
// then. Where that is another than when the mark was tried, nothing is written.
func (c Change) Write() ([]byte, error) {
	now, err := textfile.Read(c.File)
	if err != nil {
		return nil, err
	}
	if !bytes.Equal(now, c.from) {
		return nil, ErrChanged
	}
	if c.Same() {
		return now, nil
	}
	return slices.Clone(c.to), atomicfile.WriteBack(c.File, atomicfile.Bytes(c.to))
}

// Words says what is in the shot once it is written.
func (c Change) Words() string {
	words := fmt.Sprintf("%s = %q", c.Path, c.Text)
	switch {
	case c.Same():
		return words + " is in " + c.File + " already"
	case c.Over != "":
		return words + " is now in " + c.File + ", over what " + c.Over + " says"
	}
	return words + " is now in " + c.File
}
