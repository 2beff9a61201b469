package spinreport

import (
	"fmt"
	"io"
	"strings"

	"seamrail/export/header"
	"seamrail/export/spinwords"
	"seamrail/export/textpage"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/turntable/spin"
)

// page is a report being written.
type page struct {
	textpage.Page
	d Data
}

// Write writes the report as text of at most 80 columns, plain unless
// opt.Colour. The error is the writer's.
func Write(w io.Writer, d Data, opt Options) error {
	p := &page{textpage.Page{Colour: opt.Colour}, d}
	p.head()
	for _, m := range d.Measured {
		p.measured(m)
	}
	if len(d.Query.Products) > 0 {
		p.loops()
		p.best()
		p.fits()
		p.start()
	}
	for _, t := range d.Tables {
		p.table(t)
	}
	p.defaults(d.Defaults)
	p.cautions()
	_, err := p.WriteTo(w)
	return err
}

func (p *page) head() {
	for _, l := range textpage.Fold(header.Clean(p.d.Title), textpage.Width) {
		p.Line(p.Paint(textpage.Bold+";"+textpage.Cyan, l))
	}
	c := p.d.Query.Clock
	p.Line(p.Paint(textpage.Dim, fmt.Sprintf("captured at %s, played at %s frames/s, retime %s",
		shortRate(c.Capture), shortRate(c.Playback), c.Retime)))
	if len(p.d.Query.Products) == 0 {
		return
	}
	p.Blank()
	a := p.d.Answer
	first := a.Loops[0]
	switch {
	case a.Closing == 0:
		p.verdict(textpage.Red, "NONE CLOSES", fmt.Sprintf("within %s; the nearest is %s", p.asked(), p.length(first)))
	case first.Certain():
		p.verdict(textpage.Green, "CLOSES", p.length(first)+": "+turned(first))
	default:
		p.verdict(textpage.Yellow, "UNSURE", p.unsure(first))
	}
}

// unsure says that loops close if the periods are as stated, but that these are
// not known well enough.
func (p *page) unsure(first spin.Loop) string {
	words := fmt.Sprintf("%s within %s if the speed is as stated and holds, which is not known well enough to say; ",
		spinwords.Counted(p.d.Answer.Closing, "loop"), p.asked())
	if first.Closes() {
		return words + "the best of them is " + p.length(first)
	}
	return words + "by error and uncertainty together the best, though not one of them, is " + p.length(first)
}

func (p *page) verdict(code, stamp, words string) {
	for i, l := range textpage.Fold(words, textpage.Width-len(stamp)-2) {
		head := p.Paint(textpage.Bold+";"+code, stamp)
		if i > 0 {
			head = textpage.Spaces(len(stamp))
		}
		p.Line(head + "  " + l)
	}
}

// asked names the bound, or the bounds.
func (p *page) asked() string {
	var out []string
	for _, q := range p.d.Query.Products {
		if b := q.Bound().String(); len(out) == 0 || out[len(out)-1] != b {
			out = append(out, b)
		}
	}
	return strings.Join(out, " and ")
}

// length tells how long a loop is, and its capture rate where there are several.
func (p *page) length(l spin.Loop) string {
	words := fmt.Sprintf("%s s on screen, %s", l.OnScreen().Decimal(3), spinwords.Counted(l.Captured, "captured frame"))
	if len(p.d.Query.Captures) > 0 {
		words += " at " + shortRate(l.Clock.Capture)
	}
	return words
}

// turned tells what every product has turned.
func turned(l spin.Loop) string {
	var out []string
	for _, s := range l.Seams {
		out = append(out, spinwords.Match(s))
	}
	return strings.Join(out, " and ")
}

func (p *page) fits() {
	if len(p.d.Answer.Fits) == 0 {
		return
	}
	p.Section("WHAT WOULD CLOSE")
	for _, f := range p.d.Answer.Fits {
		p.Bullet(textpage.Green, "+", f.Text)
	}
}

// start tells how a stand is begun, once for all of them.
func (p *page) start() {
	p.Section("THE START")
	for _, text := range []string{spin.AnyFace, spin.MarkFace, spin.Settle} {
		p.Bullet(textpage.Dim, "-", text+".")
	}
}

func (p *page) defaults(defaults []source.Default) {
	if len(defaults) == 0 {
		return
	}
	p.Section("FILLED IN FOR YOU")
	for _, d := range defaults {
		text := header.Clean(d.Key) + " = " + header.Clean(d.Value)
		if d.Why != "" {
			text += ": " + header.Clean(d.Why)
		}
		p.Bullet(textpage.Dim, "-", text)
	}
}

// cautions are about stands; those of the rig stand in the plan.
func (p *page) cautions() {
	p.Section("BEFORE IT MOVES")
	if len(p.d.Query.Products) > 0 {
		p.Bullet(textpage.Yellow, "!", "A stand has a switch of its own: stopping the rig does not stop it. Keep its mains lead dry and clear of whatever turns.")
	}
	p.Bullet(textpage.Yellow, "!", "Stand the product in the middle and turn it once by hand before the motor does: nothing may catch on the lens, the lamp or a cable.")
}

// seconds prints an exact time.
func seconds(s exact.Rat) string { return s.Decimal(3) + " s" }
