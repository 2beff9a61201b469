package verify

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// TestAVerdictWithMore: one thing that is not in order rejects it for good, and the verdict
// that others were added to stays as it was.
func TestAVerdictWithMore(t *testing.T) {
	good, bad := Finding{Check: "good", OK: true}, Finding{Check: "bad"}
	v := Verdict{OK: true, Findings: append(make([]Finding, 0, 8), good)}
	w := v.With(bad, good)
	assert.Equal(t, []Finding{good, bad, good}, w.Findings)
	assert.Equal(t, []Finding{bad}, w.Failed())
	assert.Equal(t, "rejected", w.String())
	assert.Equal(t, []Finding{good}, v.Findings)
	assert.Equal(t, "verified", v.String())
	assert.Equal(t, "verified", v.With(good).String())
	assert.Equal(t, []Finding{good, good}, v.With(good).Findings)
	assert.Equal(t, []Finding{good, bad, good}, w.Findings, "what is added to one is not in another")
	assert.False(t, w.With(good).OK)
}

// TestAVerdictBeside names what else fails or is not known, and is no other for it.
func TestAVerdictBeside(t *testing.T) {
	v := Verdict{OK: true}.Beside([]string{"light"}, []string{"focus"})
	assert.Equal(t, Verdict{OK: true, Fails: []string{"light"}, Unknown: []string{"focus"}}, v)
}

// pair is two rails: the cosine, and one that may be another, each with its own steps.
type pair struct {
	cosine
	other cosine
}

func (p pair) AxisCount() int { return 2 }
func (p pair) Limits(i int) trace.Axis {
	return [2]trace.Axis{p.axis, p.other.axis}[i]
}
func (p pair) Position(i int, sec float64) float64 {
	return [2]cosine{p.cosine, p.other}[i].Position(0, sec)
}
func (p pair) Advance(i int) exact.Rat { return [2]cosine{p.cosine, p.other}[i].Advance(0) }
func (p pair) StepsAlong(rounds int64) func() (trace.Step, bool) {
	next, second := p.cosine.StepsAlong(rounds), p.other.StepsAlong(rounds)
	first := true
	return func() (trace.Step, bool) {
		if first {
			if s, ok := next(); ok {
				return s, true
			}
			first = false
		}
		s, ok := second()
		s.Axis = 1
		return s, ok
	}
}

// TestEachAxisForItself: whatever is wrong with the second rail is found with its name, and
// nothing of the first.
func TestEachAxisForItself(t *testing.T) {
	two := func() pair {
		p := pair{sound(), sound()}
		p.other.axis.Name = "lift"
		return p
	}
	v := Check(two())
	assert.Empty(t, v.Failed())
	assert.Equal(t, [2]string{"rail", "lift"}, [2]string{v.Seam[0].Axis, v.Seam[1].Axis})
	assert.Equal(t, [2]string{"rail", "lift"}, [2]string{v.Steps[0].Axis, v.Steps[1].Axis})
	assert.Equal(t, [2]int64{4800, 4800}, [2]int64{v.Steps[1].Forward, v.Steps[1].Backward})
	for check, flaw := range map[string]func(*cosine){
		"speed":       func(c *cosine) { c.axis.MaxSpeed = 90 },
		"seam":        func(c *cosine) { c.kick = 0.5 },
		"step times":  func(c *cosine) { c.late = 2000 },
		"steps close": func(c *cosine) { c.lose = 9600 },
		"steps hold":  func(c *cosine) { c.advance = exact.New(1, 8) },
	} {
		p := two()
		flaw(&p.other)
		found := []string{}
		for _, f := range Check(p).Failed() {
			assert.Equal(t, "lift", f.Axis, f.Text)
			found = append(found, f.Check)
		}
		assert.Contains(t, found, check)
	}
}

// TestWhatIsChecked, in this order: nothing is left out, and a cut is looked at only where
// a round shows less than all of itself.
func TestWhatIsChecked(t *testing.T) {
	checks := func(m Motion) (out []string) {
		for _, f := range Check(m).Findings {
			out = append(out, f.Check)
		}
		return out
	}
	assert.Equal(t, []string{"frames", "travel", "speed", "acceleration", "jerk", "seam",
		"step times", "steps close", "steps hold", "step rate"}, checks(sound()))
	assert.Equal(t, []string{"frames", "travel", "speed", "acceleration", "jerk", "seam", "cut",
		"step times", "steps close", "steps hold", "step rate"}, checks(pass()))
	assert.Equal(t, []string{"frames", "travel", "speed", "acceleration", "jerk", "seam",
		"step times", "steps close", "steps hold", "step rate", "stand display, turning", "stand display, seam"}, checks(closing()))
}
