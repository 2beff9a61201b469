package picture

import (
	"fmt"
	"math"

	"seamrail/motion/base/unit"
	"seamrail/motion/camera/light"
	"seamrail/motion/camera/optics"
	"seamrail/motion/pull"
	"seamrail/motion/scene"
	"seamrail/motion/track"
)

// fixed is one focus and one marked aperture with which the near face is sharp in every
// frame.
type fixed struct {
	focus    float64 // mm from the lens
	aperture float64 // marked f-number
}

// words names both, or the aperture alone where the focus is set so already.
func (s fixed) words(now float64) string {
	if math.Abs(s.focus-now) <= sameFocus {
		return stopText(s.aperture)
	}
	return fmt.Sprintf("%s with focus at %s", stopText(s.aperture), unit.Format(s.focus, unit.Length))
}

// perMM are the parts of a mm that a focus is set to: whole ones, and finer where that
// saves a stop.
var perMM = []float64{1, 10}

// settle finds the widest marked aperture with which one focus keeps the near face sharp in
// every frame, and that focus. The nearest and the farthest face want most, and of all
// focuses the harmonic mean of the two from the entrance pupil makes their spots alike and
// so least; the aperture follows. What it is set to is rounded, so it is looked at in every
// row, and closed by a stop where that fails.
// Source: 2 near far/(near + far) is where Greenleaf's near and far limits (Photographic
// Optics, Macmillan 1950) have the focus that they belong to.
func (e *eye) settle(rows []Row, limit float64) (fixed, bool) {
	best, found := fixed{}, false
	for _, per := range perMM {
		u, need := e.between(rows, limit, per)
		if !(u > e.focal.Value) {
			continue
		}
		for _, n := range light.Apertures() {
			if found && n >= best.aperture {
				break
			}
			if light.ExactAperture(n) >= need*(1-blurSlack) && e.has(u, n) && e.sharpAt(rows, u, n, limit) {
				best, found = fixed{u, n}, true
			}
		}
	}
	return best, found
}

// has tells whether the lens can be set so.
func (e *eye) has(u, n float64) bool {
	s := e.resolved()
	setFocus(&s, u)
	s.Lens.Aperture = scene.Is(n)
	return len(s.Faults()) == 0
}

// sharpAt tells whether the near face is sharp in every row with a focus and a marked
// aperture.
func (e *eye) sharpAt(rows []Row, u, marked, limit float64) bool {
	n := light.ExactAperture(marked)
	for _, r := range rows {
		z := r.Focus + r.Drift
		if !math.IsNaN(z) && optics.Blur(e.focal.Value, n, e.pupils(), u, z)/e.pitch.Value > limit*(1+blurSlack) {
			return false
		}
	}
	return true
}

// between is the focus, in mm from the lens and rounded to such parts, at which the nearest
// and the farthest near face are as much out of focus, and the f-number at which both are
// just sharp then: spots go with |1/s - 1/z| from the entrance pupil, so s is the harmonic
// mean.
func (e *eye) between(rows []Row, limit, per float64) (u, n float64) {
	near, far := math.Inf(1), 0.0
	for _, r := range rows {
		if z := r.Focus + r.Drift - e.ahead; !math.IsNaN(z) {
			near, far = math.Min(near, z), math.Max(far, z)
		}
	}
	u = math.Round((2/(1/near+1/far)+e.ahead)*per) / per
	spot := math.Max(optics.Blur(e.focal.Value, 1, e.pupils(), u, near+e.ahead), optics.Blur(e.focal.Value, 1, e.pupils(), u, far+e.ahead))
	return u, spot / (limit * e.pitch.Value)
}

// spareStops is how much light a wider aperture has to give to be worth saying: less is
// what is kept in hand (common practice).
const spareStops = 1

// roomier adds to a focus that holds what a wider aperture and one focus would do as well.
func (e *eye) roomier(v *Verdict, rows []Row, limit float64) {
	if !e.settable() {
		return
	}
	s, ok := e.settle(rows, limit)
	if !ok {
		return
	}
	if e.byHand() {
		if s.aperture <= e.scene.Lens.Aperture.Value {
			v.Text += "; " + s.words(math.NaN()) + " would do without any pull"
		}
		return
	}
	gain := optics.Stops(light.ExactAperture(s.aperture), e.stop())
	if gain < spareStops-stopSlack {
		return
	}
	v.figure("wide enough", s.aperture, "f-number")
	v.figure("with focus at", s.focus, "mm")
	v.figure("light to gain", gain, "stops")
	v.Text += fmt.Sprintf("; %s would do, %s more light", s.words(e.where.Value), stopsOf(gain))
}

// stopSlack keeps a whole stop of the marked series one.
const stopSlack = 1e-9

// settable tells whether one focus may be set in place of what there is.
func (e *eye) settable() bool {
	return !e.flat && e.pull < 0 && e.focal.Given && e.where.Given
}

// setFocus sets the focus of a resolved scene to u mm; a hand that pulls it holds it there.
func setFocus(s *scene.Scene, u float64) {
	if p := s.Lens.Pull; p != nil {
		s.Lens.Pull = &pull.Pull{Hand: p.Hand, Beats: p.Beats, Marks: []track.Key{{Pos: u}}, Loop: p.Loop, Paced: p.Paced}
		return
	}
	refocused(s, u)
}

// trySettled adds one focus, and one with an aperture that then does.
func (e *eye) trySettled(v *Verdict, rows []Row, limit float64) {
	if !e.settable() {
		return
	}
	now, held := e.scene.Lens.Aperture.Value, ""
	if e.byHand() {
		held = ", and no pull"
	}
	if u, _ := e.between(rows, limit, perMM[0]); u > e.focal.Value && (e.byHand() || math.Abs(u-e.where.Value) > sameFocus) {
		e.focused(v.try(ofFocus, func(s *scene.Scene) { setFocus(s, u) }, "focus set at %s%s", unit.Format(u, unit.Length), held), u)
	}
	s, ok := e.settle(rows, limit)
	if !ok || s.aperture <= now || !e.byHand() && math.Abs(s.focus-e.where.Value) <= sameFocus {
		return
	}
	m := v.try(ofFocus|ofIris, func(x *scene.Scene) { setFocus(x, s.focus); x.Lens.Aperture = scene.Is(s.aperture) }, "%s with focus set at %s%s",
		stopText(s.aperture), unit.Format(s.focus, unit.Length), held)
	if e.focused(m, s.focus); !e.byHand() {
		m.as("camera.aperture", "f/"+round(s.aperture, 3))
	}
}
