package cli

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/picture"
	"seamrail/motion/unit"
)

// fails are each thing about a shot that does not hold or is not known, a line each,
// for a sheet: who holds it has no report at hand.
func (j job) fails() []string {
	var out []string
	if err := j.unable(); err != nil {
		out = append(out, "DO NOT RUN THIS: "+err.Error()+". The plan's report says what would fit.")
	}
	out = append(append(out, j.broken()...), j.open()...)
	if j.picture == nil {
		return out
	}
	var unknown []string
	for _, v := range j.picture.Verdicts {
		switch v.Level {
		case picture.Block:
			out = append(out, "Must not be driven, "+v.Check+": "+v.Text+".")
		case picture.Poor:
			out = append(out, "Will not look right, "+v.Check+": "+v.Text+".")
		case picture.Unknown:
			text := strings.TrimPrefix(v.Text, notKnown)
			if len(v.Missing) > 0 {
				text += " (it takes " + strings.Join(v.Missing, ", ") + ")"
			}
			unknown = append(unknown, text)
		}
	}
	for some := range slices.Chunk(unknown, unknownALine) {
		out = append(out, sentence(notKnown+strings.Join(some, "; ")))
	}
	return out
}

// notKnown is how a verdict begins that is not known, and unknownALine how many share a
// line of the sheet, so that it takes little of it and none is cut off.
const (
	notKnown     = "not known: "
	unknownALine = 6
)

// broken are the limits that the plan breaks, once each, or else the checks that it
// fails, but for those of the picture.
func (j job) broken() []string {
	var out []string
	said := map[[2]string]bool{}
	for _, b := range j.plan.Breaches() {
		if key := [2]string{b.Axis, b.Quantity}; !said[key] {
			said[key] = true
			f := j.plan.Fault(b)
			f.File, f.Line, f.Column = "", 0, 0
			out = append(out, sentence(f.String()))
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, f := range j.verdict.Failed() {
		if j.picture != nil {
			if _, seen := j.picture.Find(f.Check); seen {
				continue
			}
		}
		text := f.Check + ": " + f.Text
		if f.Axis != "" {
			text = "axis " + f.Axis + ", " + text
		}
		out = append(out, sentence(text))
	}
	return out
}

// open are the display stands that the loop does not close on, where no check fails
// for it.
func (j job) open() []string {
	var out []string
	for i, s := range j.plan.Stands {
		if s.Seam.Closes() || s.Bounded() {
			continue
		}
		off := j.trajectory.Stand(i).Off
		way := "past"
		if off.Sign() < 0 {
			way = "short of"
		}
		out = append(out, fmt.Sprintf("The loop does not close on %s: at every repeat the product is %s %s its match.",
			s.Rig.Name, unit.Format(off.Abs().Float(), unit.Angle), way))
	}
	return out
}
