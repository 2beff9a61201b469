package spinreport

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/turntable/spin"
)

// column is one column of the table of loops: what stands over it, and what it
// says of a loop and of one of its seams.
type column struct {
	head string
	show func(l spin.Loop, s spin.Seam) string
	once bool // said once a loop, not for each of its seams
}

// columns are those that have something to say.
func (d Data) columns() []column {
	q := d.Query
	several := slices.ContainsFunc(q.Products, func(p spin.Product) bool { return len(p.Stand.Speeds) > 1 })
	wide := slices.ContainsFunc(q.Products, func(p spin.Product) bool { return p.Radius.Sign() > 0 })
	scaled := slices.ContainsFunc(q.Products, func(p spin.Product) bool { return p.Radius.Sign() > 0 && p.Scale.Sign() > 0 })
	finest := "±deg"
	if wide {
		finest = "±mm"
	}
	if scaled {
		finest = "±px"
	}
	var out []column
	add := func(holds bool, head string, show func(spin.Loop, spin.Seam) string) {
		if holds {
			out = append(out, column{head, show, len(out) < 2 || head == "capture"})
		}
	}
	add(true, "seconds", func(l spin.Loop, _ spin.Seam) string { return fixed(l.OnScreen()) })
	add(true, "frames", func(l spin.Loop, _ spin.Seam) string { return fmt.Sprint(l.Captured) })
	add(len(q.Captures) > 0, "capture", func(l spin.Loop, _ spin.Seam) string { return shortRate(l.Clock.Capture) })
	add(len(q.Products) > 1, "stand", func(_ spin.Loop, s spin.Seam) string { return brief(s.Product.Stand.Name) })
	add(several, "speed", func(_ spin.Loop, s spin.Seam) string { return brief(s.Speed.Name) })
	add(true, "turned", func(_ spin.Loop, s spin.Seam) string { return fmt.Sprintf("%d/%d", s.Match, s.Product.Symmetry) })
	add(true, "deg off", func(_ spin.Loop, s spin.Seam) string { return signed(s.Degrees()) })
	add(wide, "mm", func(_ spin.Loop, s spin.Seam) string { return measured(s.Product.Radius, s.Millimetres()) })
	add(scaled, "px", func(_ spin.Loop, s spin.Seam) string { return measured(s.Product.Scale, s.Pixels()) })
	add(true, finest, func(_ spin.Loop, s spin.Seam) string { return spread(s, finest) })
	add(true, "f/100", func(_ spin.Loop, s spin.Seam) string { return signed(s.Frames().Mul(exact.Int(100))) })
	add(true, "closes", func(_ spin.Loop, s spin.Seam) string { return closes(s) })
	return out
}

// sparable are the columns that go, in this order, where there is no room for
// all: they say in other units what another column says.
var sparable = []string{"f/100", "mm", "±px", "±mm", "±deg"}

// uncertain is what the columns with a ± hold.
const uncertain = "one standard uncertainty, from the period's"

// means say what stands in a column, where its head does not.
var means = map[string]string{
	"frames":  "captured ones",
	"deg off": "how far past (+) or short (-) of its match the product is",
	"mm":      "the same straight across at its radius",
	"f/100":   "the same in hundredths of a captured frame",
	"±px":     uncertain, "±mm": uncertain, "±deg": uncertain,
	"closes": "maybe, if the speed is as stated and holds",
}

// table is the loops, best first, and then the shot's own.
func (d Data) table() report.Table {
	columns := d.columns()
	t := report.Table{Spare: sparable}
	for _, c := range columns {
		t.Columns = append(t.Columns, report.Column{Head: c.head, Means: means[c.head], Right: true})
	}
	add := func(l spin.Loop) {
		for k, s := range l.Seams {
			row := report.Row{Verdict: tone(s)}
			for _, c := range columns {
				cell := ""
				if k == 0 || !c.once {
					cell = c.show(l, s)
				}
				row.Cells = append(row.Cells, cell)
			}
			t.Rows = append(t.Rows, row)
		}
	}
	for _, l := range d.Answer.Loops {
		add(l)
	}
	if d.Own != nil {
		t.Rows = append(t.Rows, report.Row{Across: "the shot's own loop:", Tone: report.Dim})
		add(*d.Own)
	}
	return t
}

// shortRate is a rate that fits a column: 119.88 without its fraction.
func shortRate(r exact.Rat) string { return r.Decimal(3) }

// brief cuts a name to a column.
func brief(name string) string {
	const room = 10
	name = plain.Line(name)
	if r := []rune(name); len(r) > room {
		return string(r[:room-1]) + "."
	}
	return name
}

// signed prints a number of four digits with its sign; which way it is off.
func signed(r exact.Rat) string {
	if r.Sign() > 0 {
		return "+" + figures(r.Float())
	}
	return figures(r.Float())
}

// three prints a size to three digits: it is for comparing, and the column is
// narrow.
func three(v float64) string {
	text := strconv.FormatFloat(v, 'g', 3, 64)
	short, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text
	}
	return figures(short)
}

// fixed prints seconds to the millisecond, rounded exactly, all as long behind
// the point.
func fixed(s exact.Rat) string {
	whole, part, _ := strings.Cut(s.Decimal(3), ".")
	return whole + "." + (part + "000")[:3]
}

func measured(known exact.Rat, v float64) string {
	if known.Sign() == 0 {
		return "-"
	}
	return three(v)
}

// spread prints the standard uncertainty of an error in a unit.
func spread(s spin.Seam, unit string) string {
	switch unit {
	case "±px":
		return measured(s.Product.Scale, s.Product.Chord(s.Spread)*s.Product.Scale.Float())
	case "±mm":
		return measured(s.Product.Radius, s.Product.Chord(s.Spread))
	}
	return three(s.Spread.Float() * 360)
}

func closes(s spin.Seam) string {
	switch {
	case s.Certain():
		return "yes"
	case s.Closes():
		return "maybe"
	}
	return "no"
}
