package search

import (
	"errors"
	"fmt"
	"strings"

	"seamrail/export/report/spinreport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/turntable/spin"
)

// maxFlagCycles is as much as the search takes.
const maxFlagCycles = 1000

// fromFlags lays the flags over what there is.
func (a *asked) fromFlags() {
	q := &a.report.Query
	if a.o.Described() {
		q.Products, a.bare = []spin.Product{{Symmetry: 1, Stand: a.stand()}}, true
	}
	for i := range q.Products {
		a.dress(&q.Products[i])
	}
	for _, text := range a.o.Also {
		p, err := parseAlso(text)
		a.wrong("also", err)
		p.Stand.Name = fmt.Sprintf("number %d", len(q.Products)+1)
		q.Products = append(q.Products, p)
	}
	if len(a.o.Also) > 0 && len(q.Products) > 1 && q.Products[0].Stand.Name == "" {
		q.Products[0].Stand.Name = "number 1"
	}
	if a.o.Cycles != "" {
		q.Cycles = a.counts("cycles", a.o.Cycles, maxFlagCycles)
	}
	if len(q.Products) > 0 {
		a.between()
	} else {
		a.standless()
	}
	a.offers()
	if a.o.Most < 1 || a.o.Most > maxLoops {
		a.wrong("most", fmt.Errorf("%d must be from 1 to %d", a.o.Most, maxLoops))
	}
}

// standless refuses flags that speak of a stand where there is none.
func (a *asked) standless() {
	o := a.o
	for _, f := range []struct {
		name  string
		given bool
	}{
		{"uncertainty", o.Uncertainty != ""}, {"reaction", o.Reaction != ""}, {"direction", o.Direction != ""},
		{"drift", o.Drift != ""}, {"symmetry", o.Symmetry != ""}, {"radius", o.Radius != ""},
		{"pixels-per-mm", o.Pixels != ""}, {"within", o.Within != ""}, {"between", len(o.Between) > 0},
		{"cycles", o.Cycles != ""}, {"offers", len(o.Offers) > 0},
	} {
		if f.given {
			a.wrong(f.name, errors.New("speaks of a stand that turns by itself, and there is none; give --period or --timed"))
		}
	}
}

// maxLoops is as long a list as anyone scrolls through.
const maxLoops = 1000

// stand is the stand that the flags describe.
func (a *asked) stand() spin.Stand {
	var s spin.Stand
	if len(a.o.Periods) > 0 && len(a.o.Timed) > 0 {
		a.wrong("timed", errors.New("is given, and so is --period; one of them says how long a turn takes"))
		return s
	}
	s.Speeds = append(a.periods(), a.timed()...)
	return s
}

// periods reads the speeds that are given as periods.
func (a *asked) periods() []spin.Speed {
	sigma := a.quantity("uncertainty", a.o.Uncertainty, unit.Time)
	if len(a.o.Periods) > 0 && a.o.Uncertainty == "" {
		a.filled("uncertainty", "0 s", "none is given; a label is not a measurement, so time a few turns")
	}
	var out []spin.Speed
	for _, text := range a.o.Periods {
		out = append(out, spin.Speed{Name: strings.TrimSpace(text), Period: a.quantity("period", text, unit.Time), Sigma: sigma})
	}
	return out
}

// timed works out the speed that was timed.
func (a *asked) timed() []spin.Speed {
	a.report.Assume = spin.Assume{Reaction: a.quantity("reaction", a.o.Reaction, unit.Time), Capture: a.report.Query.Clock.Capture}
	if a.o.Reaction != "" && a.report.Assume.Reaction.Sign() <= 0 {
		a.wrong("reaction", fmt.Errorf("%q must be above 0 s; a tenth of a second is usual", a.o.Reaction))
	}
	if len(a.o.Timed) == 0 {
		return nil
	}
	var readings []spin.Reading
	for _, text := range a.o.Timed {
		r, err := spin.ParseReading(text, a.report.Assume)
		a.wrong("timed", err)
		readings = append(readings, r)
	}
	if len(a.faults) > 0 {
		return nil
	}
	m, err := spin.Measure(readings)
	a.wrong("timed", err)
	a.report.Measured = append(a.report.Measured, spinreport.Measured{Stand: "the stand", Speed: "as timed", Measured: m})
	return []spin.Speed{m.Speed("as timed")}
}

// quantity reads the value of a flag, 0 where it was not given.
func (a *asked) quantity(flag, text string, dim unit.Dimension) exact.Rat {
	if text == "" {
		return exact.Rat{}
	}
	q, err := unit.ParseAs(text, dim)
	a.wrong(flag, err)
	return q.Value
}

// dress lays the flags about the product and its stand over p.
func (a *asked) dress(p *spin.Product) {
	o := a.o
	if o.Direction != "" {
		d, err := spin.ParseDirection(o.Direction)
		a.wrong("direction", err)
		p.Stand.Direction = d
	}
	if o.Drift != "" {
		p.Stand.Regulation, p.Stand.Regulated = a.quantity("drift", o.Drift, unit.Number), true
	}
	switch {
	case o.Symmetry != "":
		k, err := spin.ParseSymmetry(o.Symmetry)
		a.wrong("symmetry", err)
		p.Symmetry = max(1, k)
	case a.bare:
		a.filled("symmetry", "1", "as if no two faces looked alike")
	}
	p.Radius = a.above0(p.Radius, "radius", o.Radius, unit.Length)
	p.Scale = a.above0(p.Scale, "pixels-per-mm", o.Pixels, unit.Number)
	if o.Within != "" {
		b, err := spin.ParseBound(o.Within)
		a.wrong("within", err)
		p.Within = b
	} else if p.Within.Unit == spin.Unstated {
		a.filled("within", p.Bound().String(), boundWhy(*p))
	}
}

func boundWhy(p spin.Product) string {
	if p.Bound().Unit == spin.Pixels {
		return "where an edge lands on another pixel"
	}
	return "about as little as an eye sees of a change of speed; with --radius and --pixels-per-mm it is half a pixel"
}

// above0 reads a flag that must be above 0, and keeps what there is without it.
func (a *asked) above0(have exact.Rat, flag, text string, dim unit.Dimension) exact.Rat {
	if text == "" {
		return have
	}
	v := a.quantity(flag, text, dim)
	if v.Sign() <= 0 && len(a.faults) == 0 {
		a.wrong(flag, fmt.Errorf("%q must be above 0", text))
	}
	return v
}

// between reads the range of durations.
func (a *asked) between() {
	q, texts := &a.report.Query, a.o.Between
	switch len(texts) {
	case 0:
		a.filled("between", q.From.Decimal(3)+" s to "+q.To.Decimal(3)+" s", "on screen; --between says otherwise")
	case 2:
		q.From = a.quantity("between", strings.TrimSpace(texts[0]), unit.Time)
		q.To = a.quantity("between", strings.TrimSpace(texts[1]), unit.Time)
	default:
		a.wrong("between", errors.New("needs the shortest and the longest loop, such as \"4 s,12 s\""))
	}
}

// offers reads the other capture rates.
func (a *asked) offers() {
	for _, text := range a.o.Offers {
		r, err := clock.ParseRate(text)
		a.wrong("offers", err)
		if err == nil {
			a.report.Query.Captures = append(a.report.Query.Captures, r)
		}
	}
}

// parseAlso reads "period 11 s, uncertainty 0.02 s, symmetry 4, radius 30 mm".
func parseAlso(text string) (spin.Product, error) {
	p := spin.Product{Symmetry: 1, Stand: spin.Stand{Speeds: []spin.Speed{{Name: "one"}}}}
	for part := range strings.SplitSeq(text, ",") {
		key, value, _ := strings.Cut(strings.TrimSpace(part), " ")
		if err := also(&p, key, strings.TrimSpace(value)); err != nil {
			return p, err
		}
	}
	if p.Stand.Speeds[0].Period.Sign() == 0 {
		return p, fmt.Errorf("%q needs a period above 0 s, such as \"period 11 s, symmetry 4\"", text)
	}
	return p, nil
}

// also sets one property of a product.
func also(p *spin.Product, key, value string) error {
	set := func(to *exact.Rat, dim unit.Dimension) error {
		q, err := unit.ParseAs(value, dim)
		*to = q.Value
		return err
	}
	var err error
	switch key {
	case "period":
		return set(&p.Stand.Speeds[0].Period, unit.Time)
	case "uncertainty":
		return set(&p.Stand.Speeds[0].Sigma, unit.Time)
	case "drift":
		p.Stand.Regulated = true
		return set(&p.Stand.Regulation, unit.Number)
	case "radius":
		return set(&p.Radius, unit.Length)
	case "pixels-per-mm":
		return set(&p.Scale, unit.Number)
	case "symmetry":
		p.Symmetry, err = spin.ParseSymmetry(value)
	case "direction":
		p.Stand.Direction, err = spin.ParseDirection(value)
	case "within":
		p.Within, err = spin.ParseBound(value)
	default:
		err = fmt.Errorf("%q is unknown; it must be one of period, uncertainty, drift, symmetry, radius, pixels-per-mm, direction and within", key)
	}
	return err
}
