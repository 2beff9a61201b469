package format

import (
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/motion/judge"
	"seamrail/motion/picture"
	"seamrail/motion/plain"
)

// stamped is the headline in a line.
func stamped(j *job.Job) string {
	h := j.Headline()
	if h.Tone == judge.Barred {
		return "DO NOT RUN THIS. " + h.Stamp + ". " + h.Words
	}
	return h.Stamp + ". " + h.Words
}

// fails are each thing about a shot that does not hold or is not known, a line each,
// for a sheet, which has the headline above: who holds it has no report at hand.
func fails(j *job.Job) []string {
	out := broken(j)
	others := j.Others
	verdicts := slices.Clone(others)
	if j.Picture != nil {
		verdicts = append(verdicts, j.Picture.Verdicts...)
	}
	var unknown []string
	for k, v := range verdicts {
		switch v.Level {
		case picture.Block:
			out = append(out, "Must not be driven, "+v.Check+": "+v.Text+".")
		case picture.Poor:
			out = append(out, "Will not do, "+v.Check+": "+v.Text+".")
		case picture.Unknown:
			if k < len(others) {
				continue // the headline names it, and that is all there is to say
			}
			text := strings.TrimPrefix(v.Text, notKnown)
			if len(v.Missing) > 0 {
				text += " (it takes " + strings.Join(v.Missing, ", ") + ")"
			}
			unknown = append(unknown, text)
		}
	}
	for some := range slices.Chunk(unknown, unknownALine) {
		out = append(out, plain.Sentence(notKnown+strings.Join(some, "; ")))
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
func broken(j *job.Job) []string {
	var out []string
	said := map[[2]string]bool{}
	for _, b := range j.Plan.Breaches() {
		if key := [2]string{b.Axis, b.Quantity}; !said[key] {
			said[key] = true
			f := j.Plan.Fault(b)
			f.File, f.Line, f.Column = "", 0, 0
			out = append(out, plain.Sentence(f.String()))
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, f := range j.Verdict.Failed() {
		if j.Picture != nil {
			if _, seen := j.Picture.Find(f.Check); seen {
				continue
			}
		}
		text := f.Check + ": " + f.Text
		if f.Axis != "" {
			text = "axis " + f.Axis + ", " + text
		}
		out = append(out, plain.Sentence(text))
	}
	return out
}
