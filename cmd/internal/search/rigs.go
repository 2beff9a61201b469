package search

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/report/rigsreport"
	"seamrail/motion/base/fault"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// OnRigs puts the question about a shot on several rigs. What a rig lacks is left out of
// the shot, and told. The error is of what could not be onOne at all: a file that cannot
// be read or understood, a question that makes no sense.
func (o Fit) OnRigs(x job.Source, rigs []string, in io.Reader, tell func(file string, loops int)) (rigsreport.Data, error) {
	var out rigsreport.Data
	var text []byte
	if x.Shot == textfile.Stdin {
		var err error
		if text, err = io.ReadAll(io.LimitReader(in, textfile.Largest)); err != nil {
			return out, fmt.Errorf("the shot could not be read: %w", err)
		}
	}
	// All files are read before the first search, which takes long.
	all := make([]onOne, len(rigs))
	for k, file := range rigs {
		x.Rig = job.RigNamed(file, x.Shot)
		one, a, err := onRig(x, text)
		if err != nil {
			return out, err
		}
		if out.Title == "" {
			out.Title = a.title
		}
		out.Rigs, all[k] = append(out.Rigs, one), a
	}
	for k, file := range rigs {
		if err := o.fill(&out.Rigs[k], all[k], func(loops int) { tell(file, loops) }); err != nil {
			return out, err
		}
	}
	return out, nil
}

// onOne is a shot on one of the rigs, without what the rig lacks.
type onOne struct {
	x     job.Source
	s     shot.Shot
	r     rig.Rig
	title string // of the shot as it was before
}

// onRig is what the shot lacks on one rig, and what remains of it.
func onRig(x job.Source, text []byte) (rigsreport.Rig, onOne, error) {
	s, r, err := x.Load(bytes.NewReader(text))
	if err != nil {
		return rigsreport.Rig{}, onOne{}, err
	}
	one, title := rigsreport.Rig{File: x.Rig, Name: r.Name}, s.Title
	for _, l := range plan.Lacking(s, r) {
		one.Lacks, one.Remains = append(one.Lacks, l.Name), l.Remains
	}
	if len(one.Lacks) > 0 && one.Remains != "" {
		x.Without = slices.Concat(x.Without, one.Lacks)
		s, _, err = x.Load(bytes.NewReader(text))
	}
	one.Command = planCommand(x)
	return one, onOne{x, s, r, title}, err
}

// fill plans the shot on its rig and looks for loops.
func (o Fit) fill(one *rigsreport.Rig, a onOne, tell func(loops int)) error {
	j, err := job.Plan(a.s, a.r, false)
	var faults fault.List
	switch {
	case errors.As(err, &faults):
		one.Fault = faults.Error()
		return nil
	case err != nil:
		return err
	}
	one.Verdict = j.Headline()
	if j.Trouble() != nil {
		one.Fits = j.Fits()
	}
	d, err := o.Find(a.s, a.r, a.x.Shot, tell)
	if errors.Is(err, job.ErrNoScene) {
		one.Unasked = err.Error()
		return nil
	}
	one.Answer = d.Answer
	return err
}

// planCommand is what plans a shot on a rig.
func planCommand(x job.Source) string {
	words := []string{"seamrail", "plan"}
	if x.Shot != "" {
		words = append(words, x.Shot)
	}
	words = append(words, "--rig", x.Rig)
	for _, name := range x.Without {
		words = append(words, "--without", name)
	}
	for _, v := range x.Over {
		words = append(words, v.Origin, v.Text)
	}
	for i, w := range words {
		if strings.ContainsAny(w, " '\"\\$&;|<>()*?") {
			words[i] = fmt.Sprintf("%q", w)
		}
	}
	return strings.Join(words, " ")
}

// Holding is an error of limits where a shot holds on none of several rigs.
func Holding(d rigsreport.Data) error {
	if slices.ContainsFunc(d.Rigs, rigsreport.Rig.Holds) {
		return nil
	}
	return exit.Limited("the shot holds on none of the rigs, in no loop that was tried")
}
