package picture

import (
	"fmt"
	"math"

	"seamrail/motion/scene"

	"seamrail/motion/base/root"
	"seamrail/motion/base/unit"
)

// looksPerFrame is how many times a captured frame the gap is looked at before
// it is narrowed down about the least.
const looksPerFrame = 2

// rampLooks is how many times a run-up or a run-out is looked at.
const rampLooks = 200

// stretch is a time that is looked at in n even steps.
type stretch struct {
	at       func(sec float64) setting
	from, to float64 // s
	n        int
}

// stretches are a take of one round: the loop, and its ramps where it has any.
// Further rounds are alike for the camera.
func (e *eye) stretches() []stretch {
	period := e.motion.Period().Float()
	out := []stretch{{e.at, 0, period, int(min(e.motion.Captured(), e.atMost)) * looksPerFrame}}
	up, down := e.motion.RampFrames()
	if up > 0 {
		out = append(out, stretch{e.inTake, -float64(up) * e.frame, 0, rampLooks})
	}
	if down > 0 {
		out = append(out, stretch{e.inTake, period, period + float64(down)*e.frame, rampLooks})
	}
	return out
}

// nearest is the least of gap over a take, and when.
func (e *eye) nearest(gap func(setting) float64) (least, at float64) {
	least = math.Inf(1)
	far := math.Inf(1)
	unlessEnded := func(q setting) float64 {
		if e.ended() {
			return far
		}
		return gap(q)
	}
	for _, s := range e.stretches() {
		if l, a := s.least(unlessEnded); l < least {
			least, at = l, a
		}
	}
	return least, at
}

// inTake is the setting at sec of a take of one round, ramps included.
func (e *eye) inTake(sec float64) setting {
	return e.settingOf(func(i int) float64 { return e.motion.TakeState(i, 1, sec).Pos })
}

// look calls see at every step, ends included.
func (s stretch) look(see func(sec float64, q setting)) {
	h := (s.to - s.from) / float64(s.n)
	for k := 0; k <= s.n; k++ {
		sec := s.from + float64(k)*h
		see(sec, s.at(sec))
	}
}

// least looks at every step and narrows down about the least of them by the
// golden section. NaN counts as far away.
func (s stretch) least(gap func(setting) float64) (least, when float64) {
	least, when = math.Inf(1), s.from
	s.look(func(sec float64, q setting) {
		if g := gap(q); g < least {
			least, when = g, sec
		}
	})
	if math.IsInf(least, 1) {
		return least, when
	}
	h := (s.to - s.from) / float64(s.n)
	sec := root.Golden(math.Max(s.from, when-h), math.Min(s.to, when+h), nearestCuts, 0,
		func(sec float64) float64 { return -gap(s.at(sec)) })
	if g := gap(s.at(sec)); g < least {
		least, when = g, sec
	}
	return least, when
}

// nearestCuts leave a 2e-9th of two looks.
const nearestCuts = 40

func (e *eye) clearanceVerdict() Verdict {
	const check, would = "clearance", "whether lens and product keep apart"
	missing := e.bodyMissing()
	if _, ok := e.scene.Product.Outline(); !ok {
		missing = append(missing, "shape and size of the product")
	}
	if len(missing) > 0 {
		return unknown(check, would, missing...)
	}
	least, at := e.nearest(e.gapAt)
	swept, sweptAt := e.nearest(e.sweptGapAt)
	if e.scene.Stand.Loose || !e.closes() {
		least, at = swept, sweptAt // some round or other finds it turned so
	}
	v := Verdict{Check: check, Level: Good, When: e.moment(at)}
	v.figure("gap", least, "mm")
	v.figure("gap to swept circle", swept, "mm")
	v.gauge = -least
	e.clearanceWords(&v, least, swept)
	if !e.scene.Product.Height.Given {
		v.Missing = append(v.Missing, "height of the product: it is taken to have no top")
	}
	return v
}

// closes tells whether the product stands the same at the end of every round.
func (e *eye) closes() bool {
	const same = 1e-6 // degrees; exact turns come out within rounding of it
	if e.table < 0 {
		return true
	}
	return math.Abs(e.comingIn(e.table).Pos-e.motion.State(e.table, 0).Pos) < same
}

// tryBack adds a camera farther back by so much: as it is focused, and focused as
// much farther.
func (e *eye) tryBack(v *Verdict, by float64) {
	by = math.Ceil(by)
	back := func(s *scene.Scene) { s.Stand.Distance = scene.Is(s.Stand.Distance.Value + by) }
	e.backed(v.try(ofPlace, back, "the camera %s farther back", mm(by)), by)
	if e.focusable() {
		u := e.where.Value + by
		m := v.try(ofPlace|ofFocus, func(s *scene.Scene) { back(s); refocused(s, u) }, "the camera %s farther back and focused at %s", mm(by), unit.Format(u, unit.Length))
		e.backed(m, by)
		e.focused(m, u)
	}
}

func (e *eye) clearanceWords(v *Verdict, least, swept float64) {
	when := fmt.Sprintf("at frame %d", v.When.Frame)
	want := e.bounds.Clearance
	switch {
	case least <= 0:
		v.Level = Block
		v.Text = fmt.Sprintf("the lens strikes the product %s, %s deep: do not drive", when, mm(-least))
		e.tryBack(v, want-least)
	case least < want:
		v.Level = Fair
		v.Text = fmt.Sprintf("the lens comes within %s of the product %s: mind fingers and glass", mm(least), when)
		e.tryBack(v, want-least)
	default:
		v.Text = fmt.Sprintf("the lens keeps %s from the product, nearest %s", mm(least), when)
	}
	if least > 0 && swept <= 0 {
		v.Level = max(v.Level, Fair)
		v.Text += "; turned by hand, or out of step, the product would strike the lens"
	}
}
