// Package softenreport tells which laws are softest for a move.
package softenreport

import (
	"fmt"
	"math"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/vibration/lawfit"
)

// Data is what there is to tell.
type Data struct {
	Title   string
	Subject lawfit.Subject
	Offers  []lawfit.Offer // the first is the law that the move has
}

// Report tells it to people.
func (d Data) Report() report.Report {
	r, s := report.Report{Title: d.Title}, d.Subject
	out, back := s.Ways()
	r.Section("SOFTEST LAWS OF " + strings.ToUpper(s.Axis.Name))
	r.Field("a way", fmt.Sprintf("%s %s in %s real seconds out, %s back", figure(out.Travel), s.Axis.Unit(), figure(out.Seconds), figure(back.Seconds)))
	if s.Spring.Known() {
		r.Field("the rig", fmt.Sprintf("swings at %s Hz, %s times in the way out, damped by %s of critical",
			figure(s.Spring.Frequency), figure(s.Spring.Frequency*out.Seconds), percent(s.Spring.Damping)))
	}
	if s.Share < 1 {
		r.Field("limits", percent(s.Share)+" of the rig's")
	}
	r.Add(d.table())
	r.Section("HOW SOFT IT CAN BE")
	for _, o := range d.Offers[1:] {
		offer(&r, o, s.Axis.Unit())
	}
	r.Section("")
	r.Add(report.Note{Text: d.foot()})
	return r
}

// Words of the aims.
var aims = map[string]string{
	lawfit.Now: "(now)", lawfit.Acceleration: "acceleration", lawfit.Jerk: "jerk", lawfit.Smear: "smear",
	lawfit.Shake: "after-shake", lawfit.WideShake: "the same, robust",
}

// table has a row for each law.
func (d Data) table() report.Table {
	u := d.Subject.Axis.Unit()
	t := report.Table{Close: true, Columns: []report.Column{{Head: "least", Width: 19}, {Head: "law", Width: 15}}}
	for _, head := range []string{u + "/s", u + "/s2", u + "/s3", "left, " + u} {
		t.Columns = append(t.Columns, report.Column{Head: head, Width: 9})
	}
	for _, o := range d.Offers {
		row := report.Row{Cells: []string{aims[o.Aim], o.Name, figure(o.Speed), figure(o.Acc), figure(o.Jerk), left(o)}}
		switch {
		case o.Name == "":
			row = report.Row{Cells: []string{aims[o.Aim], "none", "", "", "", ""}, Tone: report.Dim}
		case !o.Within:
			row.Tone = report.Fair
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func left(o lawfit.Offer) string {
	const nothing = 1e-6 // in units: it is rounding
	switch {
	case math.IsNaN(o.Left):
		return "-"
	case o.Left < nothing:
		return "0"
	}
	return figure(o.Left)
}

// offer tells one law's proof and its lines.
func offer(r *report.Report, o lawfit.Offer, unit string) {
	if o.Name == "" {
		r.Toned(report.Dim, o.Aim, "none: "+o.Why)
		return
	}
	r.Field(o.Aim, proof(o, unit))
	if !o.Within {
		r.Toned(report.Fair, "", "not as it is: "+o.Why)
	}
	r.Toned(report.Good, "", Line(o))
}

// proof says how near the law is to what no law goes below that begins and ends a
// way at rest and, unless it carries it through, without acceleration.
func proof(o lawfit.Offer, unit string) string {
	value, name, power, among := o.Jerk, "jerk", "/s3", "no such law within the limits"
	if o.Carried {
		among = "no law within the limits"
	}
	switch o.Aim {
	case lawfit.Acceleration:
		value, name, power = o.Acc, "acceleration", "/s2"
	case lawfit.Smear:
		value, name, power = o.Speed, "speed", "/s"
	case lawfit.Shake:
		among = "no such law that leaves no swing"
		if len(o.Keys) > dampedFrom {
			among = "no such law, alike at both ends, that leaves no swing"
		}
	case lawfit.WideShake:
		among = "no such law that leaves an undamped swing at rest, and nearly so one of a frequency a little off,"
	}
	return fmt.Sprintf("%s of %s %s%s; %s goes below %s (%s above)",
		name, figure(value), unit, power, among, figure(o.Bound), excess(o.Excess))
}

// dampedFrom is how many keys a quiet law has without damping. One that counts
// damping in is the softest of those that are the same backwards only.
const dampedFrom = 2

// Line is what the shot would say.
func Line(o lawfit.Offer) string {
	parts := make([]string, len(o.Keys))
	for i, k := range o.Keys {
		parts[i] = fmt.Sprintf("%s = %q", k.Key, k.Text)
	}
	return strings.Join(parts, ", ")
}

func (d Data) foot() string {
	words := "Such laws begin and end each way at rest and without acceleration. "
	switch {
	case d.Subject.Carries():
		words += "A law called carried does not: the way back goes on with its acceleration, and only the first round begins with a jolt. "
	case d.Subject.Turns():
		words += "Where it turns round without a dwell acceleration may carry on through the turn, and then less is possible. "
	}
	return words + "Smear is that of a carriage that goes past what it films: it goes with the speed. " +
		"A law of few ramps is harsher on the rig than its peaks tell; try it slowly first."
}

// excess is a share above a bound; rounding may make it less than nothing.
func excess(v float64) string {
	const rounding = 1e-9
	if v < rounding {
		return "nothing"
	}
	return percent(v)
}

func percent(v float64) string { return report.Digits(v*100, 2) + " %" }

func figure(v float64) string {
	if math.IsInf(v, 0) {
		return "no bound"
	}
	return report.Digits(v, 5)
}
