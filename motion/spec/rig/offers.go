package rig

import (
	"fmt"
	"iter"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// Offers are the values that something can be set to with buttons: rows of even steps.
type Offers []Row

// Row is From, From + Step, and on to To, which is one of them. One value alone has
// From and To alike.
type Row struct{ From, To, Step exact.Rat }

// maxOffers is more presses than anyone counts, and keeps a search over all of them
// short.
const maxOffers = 10_000

func (r Row) count() exact.Rat {
	if r.Step.Sign() <= 0 {
		return exact.Int(1)
	}
	return r.To.Sub(r.From).Quo(r.Step).Floor().Add(exact.Int(1))
}

// All are the values, row by row.
func (o Offers) All() iter.Seq[exact.Rat] {
	return func(yield func(exact.Rat) bool) {
		for _, r := range o {
			for k := range r.count().Whole() {
				if !yield(r.From.Add(exact.Int(k).Mul(r.Step))) {
					return
				}
			}
		}
	}
}

// Has tells whether a value is offered.
func (o Offers) Has(v exact.Rat) bool {
	near := o.Nearest(v)
	return len(near) == 1 && near[0].Equal(v)
}

// Nearest are the values next to v: v itself where it is offered, else the greatest below
// and the least above, as far as there are such.
func (o Offers) Nearest(v exact.Rat) []exact.Rat {
	var below, above *exact.Rat
	for x := range o.All() {
		switch {
		case x.Equal(v):
			return []exact.Rat{v}
		case x.Less(v) && (below == nil || below.Less(x)):
			below = &x
		case v.Less(x) && (above == nil || x.Less(*above)):
			above = &x
		}
	}
	var out []exact.Rat
	for _, x := range []*exact.Rat{below, above} {
		if x != nil {
			out = append(out, *x)
		}
	}
	return out
}

// Words are the offers in a unit: "2 s to 60 s in steps of 0.5 s, 90 s".
func (o Offers) Words(d unit.Dimension) string {
	say := func(v exact.Rat) string { return unit.Format(v.Float(), d) }
	var out []string
	for _, r := range o {
		words := say(r.From)
		if r.From.Less(r.To) {
			words += " to " + say(r.To) + stepWords(r.Step, d)
		}
		out = append(out, words)
	}
	return strings.Join(out, ", ")
}

func stepWords(step exact.Rat, d unit.Dimension) string {
	if d == unit.Number && step.Equal(exact.Int(1)) {
		return ""
	}
	return " in steps of " + unit.Format(step.Float(), d)
}

// offerReader reads what buttons offer.
type offerReader struct {
	report *source.Report
	dims   []unit.Dimension // any of these; the first is that of examples
	least  exact.Rat        // of each value
	plain  bool             // whole numbers, in steps of one unless told
}

// read reads each item as a value or as a row of values.
func (r offerReader) read(t source.Texts, path string) Offers {
	var out Offers
	total := exact.Int(0)
	for i, item := range t.Items {
		if !item.Set {
			continue
		}
		at := path
		if !t.Single {
			at = fmt.Sprintf("%s[%d]", path, i+1)
		}
		if row, ok := r.row(item, at); ok {
			out, total = append(out, row), total.Add(row.count())
		}
	}
	switch {
	case t.Set && len(t.Items) == 0:
		r.report.Add(t.Place(), path, "", "must have a value", "such as "+r.example())
	case exact.Int(maxOffers).Less(total):
		r.report.Add(t.Place(), path, total.String()+" values", fmt.Sprintf("must be at most %d", maxOffers), "larger steps would do")
		return nil
	}
	return out
}

func (r offerReader) example() string {
	if r.plain {
		return `"1 to 20"`
	}
	e := map[unit.Dimension]string{unit.Time: `"2 s to 60 s in steps of 1 s"`, unit.Angle: `"0 deg to 180 deg in steps of 15 deg"`}
	if words, ok := e[r.dims[0]]; ok {
		return words
	}
	return `"0 mm to 600 mm in steps of 50 mm"`
}

func (r offerReader) row(t source.Text, path string) (out Row, ok bool) {
	span, step, stepped := strings.Cut(t.Text, " in steps of ")
	from, to, many := strings.Cut(span, " to ")
	if stepped && !many || many && !stepped && !r.plain {
		r.report.Wrong(t, path, "must be a value, or a first, a last and a step", "such as "+r.example())
		return out, false
	}
	part := func(text string) (exact.Rat, bool) {
		one := t
		one.Text = strings.TrimSpace(text)
		q, ok := r.report.Quantity(one, path, r.dims...)
		return q.Value, ok
	}
	if out.From, ok = part(from); !ok {
		return out, false
	}
	out.To = out.From
	if many {
		if out.To, ok = part(to); !ok {
			return out, false
		}
		if out.Step = exact.Int(1); stepped {
			if out.Step, ok = part(step); !ok {
				return out, false
			}
		}
	}
	return out, r.sound(t, path, out)
}

func (r offerReader) sound(t source.Text, path string, x Row) bool {
	wrong := func(bound, fit string) bool {
		r.report.Wrong(t, path, bound, fit)
		return false
	}
	single := x.From.Equal(x.To)
	switch {
	case x.From.Less(r.least):
		return wrong("must be at least "+unit.Format(r.least.Float(), r.dims[0]), "such as "+r.example())
	case r.plain && !(x.From.IsInt() && x.To.IsInt() && x.Step.IsInt()):
		return wrong("must be in whole numbers", "such as "+r.example())
	case x.To.Less(x.From):
		return wrong("must end above where it begins", "such as "+r.example())
	case single:
		return true
	case x.Step.Sign() <= 0:
		return wrong("must have a step above 0", "such as "+r.example())
	case !x.To.Sub(x.From).Quo(x.Step).IsInt():
		last := x.From.Add(x.To.Sub(x.From).Quo(x.Step).Floor().Mul(x.Step))
		return wrong("must end on a step", fmt.Sprintf("the last before it is %s", unit.Format(last.Float(), r.dims[0])))
	}
	return true
}
