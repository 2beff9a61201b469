package takes

import (
	"bufio"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/header"
	"seamrail/export/report"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
)

// planDigits is how many digits of a plan's hash tell the plans of one shot
// apart at a glance.
const planDigits = 6

// takeColumns are what stands on the first line of each take; what is below stands
// under the time.
var takeColumns = []report.Column{
	{Head: "TAKE", Width: 5}, {Head: "KEEP", Width: 5}, {Head: "BEGAN", Width: 20}, {Head: "ROUNDS", Width: 9}, {Head: "TOOK", Width: 11}, {Head: "ENDED"},
}

const underTake = 12

// factsOf are the takes of a log, for programs.
func factsOf(name string) (takelog.Document, error) {
	out := takelog.Document{Schema: takelog.Schema, Log: name, Takes: []takelog.Fact{}, Virtual: []takelog.Fact{}}
	log, there, err := logbook.Walk(name, func(k takelog.Take) error {
		to := &out.Takes
		if k.Virtual() {
			to = &out.Virtual
		}
		*to = append(*to, takelog.FactOf(k))
		return nil
	})
	out.There, out.Torn, out.Known = there, log.Torn, log.Known
	return out, err
}

// lister writes a list of takes, line by line. None is wider than it says, however much
// there is to say of a take.
type lister struct {
	*bufio.Writer
	wide int
}

// printTakes lists a log, with what to know of its end.
func printTakes(s command.Streams, name string) error {
	wide := min(max(s.Columns(report.Width), report.Narrowest), report.Broadest)
	w := lister{bufio.NewWriter(s.Out), wide}
	return errors.Join(w.tabulate(name), w.Flush())
}

func (w lister) tabulate(name string) error {
	log, there, err := w.takes(name, false)
	if err != nil {
		return err
	}
	if log.Real() == 0 {
		why := "has none"
		switch {
		case !there:
			why = "is not there yet"
		case log.Virtual > 0:
			why = "has virtual ones alone"
		}
		w.say("No takes: %s %s.", plain.Text(name), why)
	}
	w.end(log)
	if log.Virtual == 0 {
		return nil
	}
	fmt.Fprintln(w)
	w.say("Virtual takes, on a rig made of software: nothing was filmed.")
	_, _, err = w.takes(name, true)
	return err
}

// takes lists those that are virtual, or those that are not.
func (w lister) takes(name string, virtual bool) (log takelog.Log, there bool, err error) {
	rows := 0
	return logbook.Walk(name, func(k takelog.Take) error {
		if k.Virtual() != virtual {
			return nil
		}
		if rows++; rows == 1 {
			_, _ = w.WriteString(report.Table{Columns: takeColumns, Close: true}.TextWithin(w.wide))
		}
		_, err := w.WriteString(w.take(k)) // of a writer that is buffered it is that of all before
		return err
	})
}

// take is what there is to say of one, in lines that are not too wide.
func (w lister) take(k takelog.Take) string {
	number, keep := strconv.Itoa(k.Number), ""
	switch {
	case k.Virtual():
		number = "v" + number
	case k.Keep:
		keep = "yes"
	case k.Why != "":
		keep = "no"
	}
	cells := []string{
		number, keep, k.Begin.Time.Local().Format(time.DateTime), roundsText(k), secondsText(k.End.Executed), header.Clean(k.End.Outcome),
	}
	t := report.Table{Columns: takeColumns, Rows: []report.Row{{Cells: cells}}, Close: true, Bare: true} // a take at a time: a log may be long
	more := takeDetails(k)
	if !t.Fits(w.wide) {
		more = append([]string{cells[5]}, more...)
		cells[5] = ""
	}
	text := t.TextWithin(w.wide)
	for _, paragraph := range []string{
		strings.Join(more, "; "), header.Clean(k.End.Detail), header.Clean(strings.Join(saidTexts(k), "; ")), header.Clean(strings.Join(filmTexts(k), "; ")), header.Clean(strings.Join(append(lateTexts(k.Late), k.Notes...), "; ")),
	} {
		if paragraph == "" {
			continue
		}
		for _, line := range folded(paragraph, w.wide-underTake) {
			text += strings.Repeat(" ", underTake) + line + "\n"
		}
	}
	return text
}

// folded breaks a text between words, and within one that is wider than a line.
func folded(text string, width int) []string {
	var out []string
	for _, line := range report.Fold(text, width) {
		for r := []rune(line); ; r = r[width:] {
			if len(r) <= width {
				out = append(out, string(r))
				break
			}
			out = append(out, string(r[:width]))
		}
	}
	return out
}

// takeDetails is what stands below the first line of a take.
func takeDetails(k takelog.Take) []string {
	var out []string
	if s := k.Planned(); s > 0 {
		out = append(out, "planned "+secondsText(s))
	}
	if k.Begin.ByHand {
		out = append(out, "logged by hand")
	}
	if k.Begin.Rounds == 0 {
		out = append(out, "until stopped")
	}
	if k.End.Held {
		out = append(out, "held on the way")
	}
	if k.FrameByFrame() {
		out = append(out, framesText(k))
	}
	if text := syncText(k.Sync); text != "" {
		out = append(out, text)
	}
	if len(k.End.Worst) > 0 {
		out = append(out, worstText(k.End.Worst))
	}
	if plan := k.Begin.Plan; plan != "" {
		out = append(out, "plan "+header.Clean(plan[:min(len(plan), planDigits)]))
	}
	return out
}

// saidTexts are which pass, who, what the camera calls it, and why it is of no use.
func saidTexts(k takelog.Take) []string {
	var out []string
	if g := k.Begin.Group; g != "" {
		out = append(out, fmt.Sprintf("%s, pass %q", g, k.Begin.Pass))
	}
	for _, said := range []struct{ what, text string }{{"clip ", k.Clip}, {"rejected: ", k.Why}, {"driven by ", k.Begin.Driver}} {
		if said.text != "" {
			out = append(out, said.what+said.text)
		}
	}
	return out
}

// syncText is what is known of the sync marks of a take.
func syncText(s takelog.Sync) string {
	if s.Mark == "" {
		return ""
	}
	text := fmt.Sprintf("sync mark by %s %.4f s before frame 0, give or take %.1f ms", header.Clean(s.Mark), -s.First, s.Out*1000)
	switch {
	case s.Saw && s.Last > 0:
		text += fmt.Sprintf(", seen in frame %d and after the take in frame %d", s.Frame, s.Last)
	case s.Saw:
		text += fmt.Sprintf(", seen in frame %d", s.Frame)
	}
	return text
}

// roundsText is the rounds run of those asked for.
func roundsText(k takelog.Take) string {
	run, asked := strconv.FormatInt(k.End.Rounds, 10), strconv.FormatInt(k.Begin.Rounds, 10)
	if k.Cut {
		run = "?"
	}
	if k.Begin.Rounds == 0 || run == asked {
		return run
	}
	return run + " of " + asked
}

// framesText is how many frames of a take frame by frame are exposed, of how many: "12 of 24
// frames, from frame 7 on".
func framesText(k takelog.Take) string {
	text := plain.Count(k.Frames, "frame")
	if of := k.Begin.Of; of > 0 {
		text = fmt.Sprintf("%d of %s", k.Frames, plain.Count(of, "frame"))
	}
	if from := k.Begin.Frames; from > 0 {
		text += fmt.Sprintf(", from frame %d on", from)
	}
	return text
}

func secondsText(s float64) string {
	if s == 0 {
		return "-"
	}
	return strconv.FormatFloat(s, 'f', 3, 64) + " s"
}

// deviationGrain is what a deviation is printed to: finer than any report.
const deviationGrain = 0.001

// worstText is the worst deviation of each axis, "rail 0.01 mm, pan 0.2 deg off at the worst".
func worstText(worst []takelog.Worst) string {
	var out []string
	for _, w := range worst {
		dim := unit.Length
		if w.Unit == "deg" {
			dim = unit.Angle
		}
		out = append(out, header.Clean(w.Axis)+" "+unit.Format(math.Round(w.Value/deviationGrain)*deviationGrain, dim))
	}
	return strings.Join(out, ", ") + " off at the worst"
}

// say writes a text in lines.
func (w lister) say(format string, args ...any) {
	for _, line := range folded(fmt.Sprintf(format, args...), w.wide) {
		fmt.Fprintln(w, line)
	}
}

// end says what the end of the log means for the next take.
func (w lister) end(log takelog.Log) {
	if k, cut := log.LastCut(); cut {
		w.say("Take %d was cut short: the log breaks off in it.", k.Number)
	}
	if log.Torn > 0 {
		w.say("%s of the log cannot be read: passed over.", plain.Count(log.Torn, "line"))
	}
	if log.Real() > 0 && !log.Known {
		w.say("Where the rig stands is not known: home it, or place it by hand, before the next take.")
	}
}
