package spinreport

import (
	"fmt"
	"strconv"
	"strings"

	"seamrail/export/header"
	"seamrail/export/spinwords"
	"seamrail/motion/base/exact"
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
func (p *page) columns() []column {
	q := p.d.Query
	out := []column{
		{"seconds", func(l spin.Loop, _ spin.Seam) string { return fixed(l.OnScreen()) }, true},
		{"frames", func(l spin.Loop, _ spin.Seam) string { return fmt.Sprint(l.Captured) }, true},
	}
	if len(q.Captures) > 0 {
		out = append(out, column{"capture", func(l spin.Loop, _ spin.Seam) string { return shortRate(l.Clock.Capture) }, true})
	}
	if len(q.Products) > 1 {
		out = append(out, column{"stand", func(_ spin.Loop, s spin.Seam) string { return brief(s.Product.Stand.Name) }, false})
	}
	if manySpeeds(q) {
		out = append(out, column{"speed", func(_ spin.Loop, s spin.Seam) string { return brief(s.Speed.Name) }, false})
	}
	out = append(out,
		column{"turned", func(_ spin.Loop, s spin.Seam) string { return fmt.Sprintf("%d/%d", s.Match, s.Product.Symmetry) }, false},
		column{"deg off", func(_ spin.Loop, s spin.Seam) string { return signed(s.Degrees()) }, false})
	finest := "±deg"
	if p.any(func(q spin.Product) bool { return q.Radius.Sign() > 0 }) {
		finest = "±mm"
		out = append(out, column{"mm", func(_ spin.Loop, s spin.Seam) string { return measured(s.Product.Radius, s.Millimetres()) }, false})
	}
	if p.any(func(q spin.Product) bool { return q.Radius.Sign() > 0 && q.Scale.Sign() > 0 }) {
		finest = "±px"
		out = append(out, column{"px", func(_ spin.Loop, s spin.Seam) string { return measured(s.Product.Scale, s.Pixels()) }, false})
	}
	return append(out,
		column{finest, func(_ spin.Loop, s spin.Seam) string { return spread(s, finest) }, false},
		column{"f/100", func(_ spin.Loop, s spin.Seam) string { return signed(s.Frames().Mul(exact.Int(100))) }, false},
		column{"closes", func(_ spin.Loop, s spin.Seam) string { return closes(s) }, false})
}

func (p *page) any(holds func(spin.Product) bool) bool {
	for _, q := range p.d.Query.Products {
		if holds(q) {
			return true
		}
	}
	return false
}

func manySpeeds(q spin.Query) bool {
	for _, p := range q.Products {
		if len(p.Stand.Speeds) > 1 {
			return true
		}
	}
	return false
}

// shortRate is a rate that fits a column: 119.88 without its fraction.
func shortRate(r exact.Rat) string { return r.Decimal(3) }

// brief cuts a name to a column.
func brief(name string) string {
	const room = 10
	if r := []rune(header.Clean(name)); len(r) > room {
		return string(r[:room-1]) + "."
	}
	return header.Clean(name)
}

// signed prints a number of four digits with its sign; which way it is off.
func signed(r exact.Rat) string {
	if r.Sign() > 0 {
		return "+" + spinwords.Figures(r.Float())
	}
	return spinwords.Figures(r.Float())
}

// three prints a size to three digits: it is for comparing, and the column is
// narrow.
func three(v float64) string {
	text := strconv.FormatFloat(v, 'g', 3, 64)
	short, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text
	}
	return spinwords.Figures(short)
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
