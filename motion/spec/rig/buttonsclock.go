package rig

import (
	"fmt"
	"regexp"
	"sync"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/turntable/spin"
)

// maxPace is how far the clock of a rig may be off before it is a slip of the hand: ten
// per cent is what an uncontrolled motor is off by (common practice).
var maxPace = exact.New(1, 10)

var roundsIn = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\s*([0-9]+)\s+(?:rounds?|ways?)\s+of\s+(.+?)\s+in\s+(.+?)\s*$`)
})

// measured holds its clock against a stopwatch: each reading is so many seconds by its
// buttons in so many by the watch, which are fitted as the turns of a stand are.
func (b buttonsBuilder) measured(t source.Texts, path string, out *Buttons) {
	var all []spin.Reading
	rounds := int64(0)
	for i, item := range t.Items {
		at := path
		if !t.Single {
			at = fmt.Sprintf("%s[%d]", path, i+1)
		}
		n, r, ok := b.rounds(item, at, out.Press)
		if !ok {
			return
		}
		all, rounds = append(all, r), rounds+n
	}
	if len(all) == 0 {
		if t.Set {
			b.report.Add(t.Place(), path, "", "must have a line", roundsExample)
		} else {
			b.report.Default(path, "nothing", "its own clock is taken to be right, and how far it is off is not known")
		}
		return
	}
	m, err := spin.Measure(all)
	if err != nil {
		b.report.Fail(t.Items[0], path, err)
		return
	}
	if maxPace.Less(m.Period.Sub(exact.Int(1)).Abs()) {
		b.report.Wrong(t.Items[0], path, fmt.Sprintf("makes its clock %.1f %% off, and at most %s %% is believed", 100*(m.Period.Float()-1), maxPace.Mul(exact.Int(100))),
			"write what its buttons say of a round after of, both ways and both rests, and what the watch says after in")
		return
	}
	out.Pace, out.Spread = m.Period, m.Sigma
	out.Basis = fmt.Sprintf("%s by stopwatch in %s", plain.Count(rounds, "round"), plain.Count(len(all), "reading"))
}

const roundsExample = `such as "20 rounds of 24 s in 482.1 s"`

// rounds reads "20 rounds of 24 s in 482.1 s". The watch is pressed twice.
func (b buttonsBuilder) rounds(t source.Text, path string, press exact.Rat) (n int64, r spin.Reading, ok bool) {
	m := roundsIn().FindStringSubmatch(t.Text)
	if m == nil {
		b.report.Wrong(t, path, "is no reading", roundsExample)
		return 0, r, false
	}
	part := func(text string, dim unit.Dimension) (exact.Rat, bool) {
		one := t
		one.Text = text
		q, ok := b.report.Quantity(one, path, dim)
		if ok && q.Value.Sign() <= 0 {
			b.report.Wrong(t, path, "must have numbers above 0", roundsExample)
			ok = false
		}
		return q.Value, ok
	}
	count, ok1 := part(m[1], unit.Number)
	told, ok2 := part(m[2], unit.Time)
	took, ok3 := part(m[3], unit.Time)
	if !ok1 || !ok2 || !ok3 {
		return 0, r, false
	}
	if press.Sign() == 0 {
		press = spin.Reaction
	}
	return count.Whole(), spin.Reading{
		Text: t.Text, Turns: count.Mul(told), Seconds: took, Variance: press.Mul(press).Mul(exact.Int(2)),
	}, true
}
