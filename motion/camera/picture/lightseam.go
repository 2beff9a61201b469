package picture

import (
	"cmp"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/list"
	"seamrail/motion/fade"
	"seamrail/motion/law"
	"seamrail/motion/scene"
)

// lightSeamVerdict tells the jump of light and of its change where the loop closes.
func (e *eye) lightSeamVerdict() Verdict {
	const check = "seam in the light"
	v := Verdict{Check: check, Level: Good, When: e.moment(0)}
	s, known := e.lightSeam()
	if !known {
		_, missing := luxOn(e.scene.Lamps, toCamera())
		return unknown(check, "how far the light jumps", missing...)
	}
	v.figure("jump", 100*s.jump, "% of the light")
	v.figure("kick", 100*s.kick, "%/frame")
	v.gauge = math.Max(s.jump, s.kick) / e.bounds.Flicker
	v.Text = s.words()
	under, lampsKnown := e.under()
	if lampsKnown && !math.IsInf(under, 1) {
		v.figure("under full exposure", under, "stops")
	}
	seen := s.jump > e.bounds.Flicker || s.kick > e.bounds.Flicker
	hides, sure := e.hides()
	switch {
	case lampsKnown && under >= e.bounds.Black:
		v.Text += "; the lamps are down there, " + downBy(under) + ": dark, as far as no other light is on"
	case seen && hides:
		v.Text += ": hidden by the dark, as far as the lamps do not light it"
	case seen && !sure:
		v.Level = Unknown
		v.Text += ": whether the dark hides it is not known"
	case s.jump > e.bounds.Flicker:
		v.Level = Poor
		v.Text += ": seen as a jump"
		m := v.try(ofLight, func(s *scene.Scene) { refaded(s, closed) }, "the level back where it began by the seam (seam = %q)", "closed")
		for i, l := range e.scene.Lamps {
			if l.Fade != nil && l.Fade.Cut {
				m.as(of(lamps, i, "seam"), "closed")
			}
		}
	case s.kick > e.bounds.Flicker:
		v.Level = Poor
		v.Text += ": seen as a kick"
		rest := law.MinimumJerk()
		m := v.try(ofLight, func(s *scene.Scene) { refaded(s, func(f *fade.Fade) { resting(f, rest) }) }, "fades by the law %s, from rest to rest", rest.Name())
		for i, l := range e.scene.Lamps {
			if l.Fade != nil {
				for _, key := range lawKeys(l.Fade) {
					m.as(of(lamps, i, key), rest.Name())
				}
			}
		}
	default:
		v.Text += ": not seen"
	}
	return v
}

// refaded changes the fades of a scene, each a copy.
func refaded(s *scene.Scene, change func(*fade.Fade)) {
	for i, l := range s.Lamps {
		if l.Fade != nil {
			f := *l.Fade
			change(&f)
			s.Lamps[i].Fade = &f
		}
	}
}

func closed(f *fade.Fade) { f.Cut = false }

// resting has a fade go by a law.
func resting(f *fade.Fade, l law.Law) {
	if f.There == nil {
		f.Between = l
		return
	}
	f.There = f.There.WithLaws(l, l).(fade.Shuttle)
}

// lawKeys are the keys of a lamp that say by which law it fades.
func lawKeys(f *fade.Fade) []string {
	if f.There == nil {
		return []string{"between"}
	}
	return list.Map(f.There.LawKeys(), func(key string) string { return "fade." + key })
}

// downBy says how far lamps are down.
func downBy(stops float64) string {
	if math.IsInf(stops, 1) {
		return "at nothing"
	}
	return stopsOf(stops) + " under full exposure"
}

// lightSeam is what the light does where the loop closes, on the face where it is most.
type lightSeam struct {
	jump, kick    float64 // shares of the light there; of its change, in a captured frame
	before, after float64 // light, lx or shares
	lamp          string  // whose level jumps most, "" where none does
	from, to      float64 // its levels
}

func (s lightSeam) words() string {
	if s.jump < noJump {
		return fmt.Sprintf("at the seam the light goes on, and its change jumps by %s %% of it a frame", short(100*calmed(s.kick, "")))
	}
	text := fmt.Sprintf("at the seam the light jumps by %s %%", short(100*s.jump))
	if s.before > 0 && s.after > 0 {
		text += ", " + stopsOf(math.Abs(math.Log2(s.after/s.before)))
	}
	return text + fmt.Sprintf(", as %s goes from %s to %s at once", s.lamp, fade.Percent(s.from), fade.Percent(s.to))
}

// noJump is the share of the light that rounding makes of a level that goes on.
const noJump = 1e-9

// lightSeam compares both sides of the seam on all faces that any lamp lights. Shares are
// of the brighter side, and of what counts as black where both are darker.
func (e *eye) lightSeam() (out lightSeam, known bool) {
	seam := e.shownUntil().Float()
	in, next := e.lamps(seam, before), e.lamps(0, after)
	black := e.brightest() * math.Exp2(-e.bounds.Black)
	for _, face := range e.faces() {
		a, ok := sharesOn(in, face)
		b, _ := sharesOn(next, face)
		if !ok {
			return out, false
		}
		of := math.Max(math.Max(a, b), black)
		if of == 0 {
			continue
		}
		jump, kick := math.Abs(b-a)/of, math.Abs(e.change(0, after, face)-e.change(seam, before, face))*e.frame/of
		if jump >= out.jump {
			out.jump, out.before, out.after = jump, a, b
		}
		out.kick = math.Max(out.kick, kick)
	}
	for i, l := range e.scene.Lamps {
		from, _ := e.level(i, seam, before)
		to, _ := e.level(i, 0, after)
		if math.Abs(to-from) > math.Abs(out.to-out.from) {
			out.lamp, out.from, out.to = cmp.Or(l.Name, "a lamp"), from, to
		}
	}
	return out, true
}

// change is how fast the light on a face changes, a second.
func (e *eye) change(sec float64, s side, face r3.Vec) float64 {
	full := e.lamps(sec, s)
	sum := 0.0
	for i := range full {
		if e.courses[i] == nil {
			continue
		}
		one := full[i]
		one.Level.Value = 1
		lux, missing := one.LuxOn(face)
		if len(missing) > 0 {
			lux = 1
		}
		_, by := e.level(i, sec, s)
		sum += lux * by
	}
	return sum
}

// brightest is the most that any frame has on any face, in lx or shares.
func (e *eye) brightest() float64 {
	if e.most != nil {
		return *e.most
	}
	most := 0.0
	_, secs := e.looks(maxLooks)
	for _, sec := range secs {
		most = math.Max(most, e.bestLit(sec, after))
	}
	e.most = &most
	return most
}

// bestLit is the light on the face that has most of it.
func (e *eye) bestLit(sec float64, s side) float64 {
	lamps, most := e.lamps(sec, s), 0.0
	for _, face := range e.faces() {
		lux, _ := sharesOn(lamps, face)
		most = math.Max(most, lux)
	}
	return most
}

// instant is one side of a time.
type instant struct {
	sec  float64
	side side
}

// besideSeam are the beginnings and the ends of the exposures beside the seam.
func (e *eye) besideSeam() []instant {
	last, open := e.motion.FrameSeconds(e.motion.Captured()-1).Float(), e.shutter.Or(e.frame)
	return []instant{{last, after}, {math.Min(last+open, e.shownUntil().Float()), before}, {0, after}, {open, before}}
}

// under is how many stops the best lit face is under full exposure in the two frames
// beside the seam: +Inf without light. Where the exposure is not known, the brightest
// frame counts as exposed fully. It is not known where lamps are not.
func (e *eye) under() (stops float64, known bool) {
	if !e.fades {
		return 0, false
	}
	lit, down := 0.0, true
	for _, t := range e.besideSeam() {
		lit = math.Max(lit, e.bestLit(t.sec, t.side))
		for i := range e.scene.Lamps {
			level, _ := e.level(i, t.sec, t.side)
			down = down && level == 0
		}
	}
	if down {
		return math.Inf(1), true
	}
	_, sure := sharesOn(e.scene.Lamps, toCamera())
	return math.Log2(e.fully() / lit), sure
}

// lampsDown tells whether the lamps are down at the seam, which hides it.
func (e *eye) lampsDown() bool {
	under, known := e.under()
	return known && under >= e.bounds.Black
}

// fully is the light that exposes the picture, in what the lamps are told in: lx, or
// shares of the light of one lamp.
func (e *eye) fully() float64 {
	n, ok := e.effective(nil)
	iso, all := e.scene.Camera.ISO, e.lightRange()
	_, missing := luxOn(e.scene.Lamps, toCamera()) // of a lone lamp: it is told in shares
	switch {
	case !ok || !iso.Given || !e.shutter.Given:
		return e.brightest()
	case e.scene.Metered.Given && all.most > 0:
		return e.need(n, iso.Value) * all.most / e.scene.Metered.Value
	case len(missing) > 0:
		return e.brightest()
	}
	return e.need(n, iso.Value)
}
