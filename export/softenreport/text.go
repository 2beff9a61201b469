// Package softenreport tells which laws are softest for a move, as text and as
// JSON.
package softenreport

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"seamrail/export/header"
	"seamrail/export/textpage"
	"seamrail/motion/vibration/lawfit"
)

// Data is what there is to tell.
type Data struct {
	Title   string
	Subject lawfit.Subject
	Offers  []lawfit.Offer // the first is the law that the move has
}

// The columns of the table, in characters.
const (
	nameWidth   = 20
	columnWidth = 12
	digits      = 5
)

// Write writes text of at most 80 columns. The error is the writer's.
func Write(w io.Writer, d Data, colour bool) error {
	p := &page{textpage.Page{Colour: colour}, d}
	p.head()
	for _, o := range d.Offers {
		p.row(o)
	}
	p.Section("HOW SOFT IT CAN BE")
	for _, o := range d.Offers[1:] {
		p.offer(o)
	}
	p.foot()
	_, err := p.WriteTo(w)
	return err
}

type page struct {
	textpage.Page
	d Data
}

func (p *page) head() {
	s := p.d.Subject
	for _, l := range textpage.Fold(header.Clean(p.d.Title), textpage.Width) {
		p.Line(p.Paint(textpage.Bold+";"+textpage.Cyan, l))
	}
	out, back := s.Ways()
	p.Section("SOFTEST LAWS OF " + strings.ToUpper(s.Axis.Name))
	p.Field("a way", fmt.Sprintf("%s %s in %s real seconds out, %s back", figure(out.Travel), s.Axis.Unit(), figure(out.Seconds), figure(back.Seconds)))
	if s.Spring.Known() {
		p.Field("the rig", fmt.Sprintf("swings at %s Hz, %s times in the way out, damped by %s of critical",
			figure(s.Spring.Frequency), figure(s.Spring.Frequency*out.Seconds), percent(s.Spring.Damping)))
	}
	if s.Share < 1 {
		p.Field("limits", percent(s.Share)+" of the rig's")
	}
	p.Blank()
	u := s.Axis.Unit()
	p.cells(textpage.Dim, "least", "law", u+"/s", u+"/s2", u+"/s3", "left, "+u)
}

// Words of the aims.
var aims = map[string]string{
	lawfit.Now: "(now)", lawfit.Acceleration: "acceleration", lawfit.Jerk: "jerk", lawfit.Smear: "smear",
	lawfit.Shake: "after-shake", lawfit.WideShake: "the same, robust",
}

func (p *page) row(o lawfit.Offer) {
	if o.Name == "" {
		p.cells(textpage.Dim, aims[o.Aim], "none")
		return
	}
	ink := ""
	if !o.Within {
		ink = textpage.Yellow
	}
	p.cells(ink, aims[o.Aim], o.Name, figure(o.Speed), figure(o.Acc), figure(o.Jerk), p.left(o))
}

func (p *page) left(o lawfit.Offer) string {
	switch {
	case math.IsNaN(o.Left):
		return "-"
	case o.Left < nothing:
		return "0"
	}
	return figure(o.Left)
}

// nothing is a swing, in units, that is rounding.
const nothing = 1e-6

func (p *page) cells(ink, first, law string, rest ...string) {
	text := textpage.Pad(first, nameWidth) + textpage.Pad(law, nameWidth-4)
	for _, c := range rest {
		text += textpage.Pad(c, columnWidth-2)
	}
	p.Line(textpage.Spaces(textpage.Indent) + p.Paint(ink, strings.TrimRight(text, " ")))
}

// offer tells one law's proof and its lines.
func (p *page) offer(o lawfit.Offer) {
	if o.Name == "" {
		p.Inked(textpage.Dim, short(o.Aim), "none: "+o.Why)
		return
	}
	p.Field(short(o.Aim), Proof(o, p.d.Subject.Axis.Unit()))
	if !o.Within {
		p.Inked(textpage.Yellow, "", "not as it is: "+o.Why)
	}
	p.Inked(textpage.Green, "", Line(o))
}

func short(aim string) string {
	switch aim {
	case lawfit.Shake:
		return "shake"
	case lawfit.WideShake:
		return "shake-wide"
	case lawfit.Acceleration:
		return "acceleration"
	}
	return aim
}

// Proof says how near the law is to what no law goes below that begins and ends a
// way at rest and, unless it carries it through, without acceleration.
func Proof(o lawfit.Offer, unit string) string {
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

func (p *page) foot() {
	p.Blank()
	words := "Such laws begin and end each way at rest and without acceleration. "
	switch {
	case p.d.Subject.Carries():
		words += "A law called carried does not: the way back goes on with its acceleration, and only the first round begins with a jolt. "
	case p.d.Subject.Turns():
		words += "Where it turns round without a dwell acceleration may carry on through the turn, and then less is possible. "
	}
	for _, l := range textpage.Fold(words+"Smear is that of a carriage that goes past what it films: it goes with the speed. "+
		"A law of few ramps is harsher on the rig than its peaks tell; try it slowly first.", textpage.Width-textpage.Indent) {
		p.Line(textpage.Spaces(textpage.Indent) + p.Paint(textpage.Dim, l))
	}
}

// excess is a share above a bound; rounding may make it less than nothing.
func excess(v float64) string {
	const rounding = 1e-9
	if v < rounding {
		return "nothing"
	}
	return percent(v)
}

func percent(v float64) string {
	return toDigits(v*100, 2) + " %"
}

func figure(v float64) string {
	if math.IsInf(v, 0) {
		return "no bound"
	}
	return toDigits(v, digits)
}

func toDigits(v float64, n int) string {
	s := strconv.FormatFloat(v, 'g', n, 64)
	if f, err := strconv.ParseFloat(s, 64); err == nil {
		return strconv.FormatFloat(f, 'f', -1, 64)
	}
	return s
}
