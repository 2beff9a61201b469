package sheet

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"seamrail/motion/camera/optics"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan"
	"seamrail/motion/pull"
	"seamrail/motion/scene"
	"seamrail/plot/internal/style"
)

// Ring is a strip of tape for the focus ring, to scale: marks along it in mm.
type Ring struct {
	Length float64 // mm; 0 for none
	Marks  []RingMark
}

// RingMark is a place on the strip.
type RingMark struct {
	MM    float64
	Label string
	Pull  bool // the hand goes there; else it is engraved on the ring
}

const (
	ringName = "Tape for the focus ring, to scale"
	// ringEnds, mm, is left beyond the last mark on either side, to hold it by.
	ringEnds = 6.0
	// ringHigh, mm, is a strip of tape as it is sold: half an inch.
	ringHigh = 12.7
)

// Focus is what a hand on the focus ring goes through, a row each time it sets out or
// arrives, and the strip where the ring's scale says how long one is. The lens is a thin
// one, whose engraved distances are from the sensor.
func Focus(p *plan.Plan, lens scene.Lens, pulls []picture.Pulling) (Table, Ring) {
	if len(pulls) == 0 || !lens.FocalLength.Given {
		return Table{}, Ring{}
	}
	f := lens.FocalLength.Value
	out := Table{Name: "Focus by hand", Heads: []string{"frame", "real s", "hand", "focus, mm from lens", "engraved, mm", "ratio"}}
	if lens.Ring.Known() {
		out.Heads = append(out.Heads, "ring, "+map[bool]string{true: "deg", false: "mm"}[lens.Ring.Degrees])
	}
	perFrame := p.Loop.Real().Float() / float64(p.Loop.Screen)
	var marks []float64
	row := func(sec float64, does string, u float64) {
		cells := append([]string{frameAt(inLoop(sec, p.Loop.Real().Float())/perFrame, p.Loop.Screen+1), fmt.Sprintf("%.3f", sec), does, place(u)}, engraved(f, lens.Extension.Or(0), u)...)
		if lens.Ring.Known() {
			at, on := lens.Ring.At(f, shorter(f, lens.Extension.Or(0), u))
			cells = append(cells, "")
			if on {
				cells[len(cells)-1] = place(at)
			}
		}
		out.Rows = append(out.Rows, cells)
		marks = append(marks, u)
	}
	for i, w := range pulls {
		row(w.From, "sets out", w.Begins)
		if next := pulls[(i+1)%len(pulls)]; math.Abs(next.From-w.To) > perFrame/2 && math.Abs(next.From+p.Loop.Real().Float()-w.To) > perFrame/2 {
			row(w.To, "arrives", w.Ends)
		}
	}
	out.Notes = []string{"Engraved distances are from the sensor, by a thin lens of that focal length; a lens that focuses by moving parts within may be marked otherwise: try one with a tape measure."}
	return out, ringOf(lens, marks)
}

// shorter is the focus that a lens would have by itself where rings behind it have drawn it
// out to u: that is what its scale shows.
func shorter(f, rings, u float64) float64 {
	m := optics.Magnification(f, u) - rings/f
	if m <= 0 {
		return math.Inf(1)
	}
	return optics.FocusAt(f, m)
}

// engraved is what the scale of the lens shows for a focus: a distance, and a ratio of the
// whole as macro lenses have it.
func engraved(f, rings, u float64) []string {
	m := optics.Magnification(f, u)
	ratio := fmt.Sprintf("1:%.2f", 1/m)
	if m > 1 {
		ratio = fmt.Sprintf("%.2f:1", m)
	}
	own := shorter(f, rings, u)
	if math.IsInf(own, 1) {
		return []string{"beyond", ratio}
	}
	return []string{fmt.Sprintf("%.0f", pull.Marked(f, own)), ratio}
}

// ringOf is the strip; none where its length is not known, or a mark is off the scale.
func ringOf(lens scene.Lens, focuses []float64) Ring {
	r, f := lens.Ring, lens.FocalLength.Value
	var out Ring
	add := func(at float64, label string, pulled bool) bool {
		mm, ok := r.MM(at)
		out.Marks = append(out.Marks, RingMark{mm, label, pulled})
		return ok
	}
	for _, u := range focuses {
		own := shorter(f, lens.Extension.Or(0), u)
		at, on := r.At(f, own)
		if !on || !add(at, fmt.Sprintf("%.0f", pull.Marked(f, own)), true) {
			return Ring{}
		}
	}
	for _, t := range r.Ticks {
		add(t.At, fmt.Sprintf("%.0f", pull.Marked(f, t.Focus)), false)
	}
	slices.SortStableFunc(out.Marks, func(a, b RingMark) int {
		switch {
		case a.MM < b.MM:
			return -1
		case a.MM > b.MM:
			return 1
		}
		return 0
	})
	out.Marks = slices.CompactFunc(out.Marks, func(a, b RingMark) bool { return a.Pull == b.Pull && math.Abs(b.MM-a.MM) < sameTape })
	first := out.Marks[0].MM
	for i := range out.Marks {
		out.Marks[i].MM += ringEnds - first
	}
	out.Length = out.Marks[len(out.Marks)-1].MM + ringEnds
	return out
}

// sameTape, mm, is how near two marks of a kind are one: half of what a pen draws.
const sameTape = 0.2

// note says how the strip is used, and what to do where it is longer than the page.
func (r Ring) note() string {
	if r.Length > inner {
		return fmt.Sprintf("The tape is %.0f mm long, more than a page is wide: mark it by the table.", r.Length)
	}
	return fmt.Sprintf("Print at 100 %%: it is %.1f mm long. Below are the distances that are engraved, in mm, to lay it on by; above, in bold, those that the hand goes to.", r.Length)
}

func (r Ring) height(p *press, w float64) float64 {
	h := p.headHeight() + plainly("", "", []string{r.note()}).height(p, w)
	if r.Length <= w {
		h += ringHigh + 1
	}
	return h
}

func (r Ring) draw(p *press, x, y, w float64) error {
	y = p.headed(x, y, w, ringName)
	if r.Length <= w {
		p.box(x, y, r.Length, ringHigh, 0.2, style.Ink)
		for _, k := range r.Marks {
			from, to, text, s := y+ringHigh/2, y+ringHigh, y+ringHigh/2+0.6, p.muted()
			if k.Pull {
				from, to, text, s = y, y+ringHigh/2, y+0.4, p.strong()
			}
			p.rule(x+k.MM, from, x+k.MM, to, 0.2, style.Ink)
			p.line(x+k.MM+0.6, text, k.Label, s)
		}
		y += ringHigh + 1
	}
	return plainly("", "", []string{r.note()}).draw(p, x, y, w)
}

// bands is the strip as a band of its own, or none.
func (r Ring) bands() []band {
	if r.Length == 0 {
		return nil
	}
	return []band{{left: []block{r}}}
}

// svg is the strip for a browser, which prints it as long as it is.
func (r Ring) svg() template.HTML {
	if r.Length == 0 || r.Length > inner {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<svg width="%.2fmm" height="%.2fmm" viewBox="0 0 %.2f %.2f" style="width:%.2fmm" role="img" aria-label="marks for a tape round the focus ring">`, r.Length, ringHigh, r.Length, ringHigh, r.Length)
	fmt.Fprintf(&b, `<rect x=".1" y=".1" width="%.2f" height="%.2f" fill="none" stroke="#20242a" stroke-width=".2"/>`, r.Length-0.2, ringHigh-0.2)
	for _, k := range r.Marks {
		from, to, text, ink := ringHigh/2, ringHigh, ringHigh/2+3.0, `fill="#5c636e"`
		if k.Pull {
			from, to, text, ink = 0, ringHigh/2, 2.8, `fill="#20242a" font-weight="bold"`
		}
		fmt.Fprintf(&b, `<path d="M%.2f %.2fV%.2f" stroke="#20242a" stroke-width=".2"/><text x="%.2f" y="%.2f" font-size="2.4" font-family="sans-serif" %s>%s</text>`,
			k.MM, from, to, k.MM+0.6, text, ink, template.HTMLEscapeString(k.Label))
	}
	return template.HTML(b.String() + "</svg>")
}
