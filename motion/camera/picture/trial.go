package picture

import (
	"maps"
	"math"
	"slices"

	"seamrail/motion/scene"
)

// some are the rows that remedies are looked at in.
func (t *trials) some(rows []Row) []Row {
	worst := map[int64]bool{}
	for _, v := range t.base {
		if v.When != nil {
			worst[v.When.Frame] = true
		}
	}
	var out []Row
	every := max(1, len(rows)/trialRows)
	for i, r := range rows {
		if i%every == 0 || worst[r.Frame] {
			out = append(out, r)
		}
	}
	return out
}

func apply(change func(*scene.Scene), s *scene.Scene) {
	if change != nil {
		change(s)
	}
}

// trial is a picture with a remedy in place. Its answers are found as they are asked
// for: most remedies do not cure their own check, and the rest is then of no interest.
type trial struct {
	base   []Verdict // without it
	checks []check
	on     aspect
	known  map[int]Verdict
}

// answer is the verdict on check i.
func (t *trial) answer(i int) Verdict {
	if t.checks[i].on&t.on == 0 {
		return t.base[i]
	}
	v, known := t.known[i]
	if !known {
		v = t.checks[i].answer()
		t.known[i] = v
	}
	return v
}

// after is the picture with a remedy in place, nil where it cannot be.
func (t *trials) after(m remedy) *trial {
	out, known := t.known[m.words]
	if !known {
		out = t.with(m)
		t.known[m.words] = out
	}
	return out
}

func (t *trials) with(m remedy) *trial {
	motion, s, ok := t.e.changed(m)
	if !ok {
		return nil
	}
	x, err := newEye(motion, s)
	if err != nil || t.e.ended() {
		return nil
	}
	x.until = t.e.until
	checks := x.checks(t.rowsOf(x, m.on))
	if len(checks) != len(t.base) {
		return nil
	}
	return &trial{t.base, checks, m.on, map[int]Verdict{}}
}

// changed are the motion and the scene with a remedy in place: those of the file, where
// there is one that can have it.
func (e *eye) changed(m remedy) (Motion, scene.Scene, bool) {
	if w, ok := e.motion.(Rewriter); ok && len(m.edits) > 0 {
		return w.With(m.edits...)
	}
	s, motion := e.resolved(), e.motion
	apply(m.scene, &s)
	if m.moves != nil {
		motion = m.moves
	}
	return motion, s, true
}

// rowsOf are the rows of a picture with a remedy in place.
func (t *trials) rowsOf(x *eye, on aspect) []Row {
	if !x.scaled() {
		return nil
	}
	if on&ofMotion != 0 && x.motion.Captured() != t.e.motion.Captured() {
		rows, _ := x.rows(trialRows, x.triedRow)
		return rows
	}
	rows := slices.Clone(t.rows)
	for i := range rows {
		switch r := &rows[i]; {
		case on&ofExposed != 0:
			*r = x.triedRow(r.Frame)
		case on&ofIris != 0:
			x.focusRow(r, x.rowSetting(*r))
		}
	}
	return rows
}

// triedRow is a row without the clearance, which no check takes from it.
func (e *eye) triedRow(k int64) Row {
	r := e.quickRow(k)
	e.focusRow(&r, e.rowSetting(r))
	r.Clearance = math.NaN()
	return r
}

// resolved is the scene with what was filled in for it, so that a change of one
// number does not move another. It shares nothing that remedies change.
func (e *eye) resolved() scene.Scene {
	s := e.given
	s.Lamps, s.Holes, s.Backlash = slices.Clone(s.Lamps), slices.Clone(s.Holes), maps.Clone(s.Backlash)
	if s.Dark != nil {
		d := *s.Dark
		s.Dark = &d
	}
	if !e.flat {
		s.Stand.Distance = e.scene.Stand.Distance
		s.Lens.FocalLength, s.Lens.Magnification, s.Lens.Focus = e.focal, e.magnified, e.where
	}
	return s
}

// refocused sets the focus of a resolved scene to u mm.
func refocused(s *scene.Scene, u float64) {
	s.Lens.Focus, s.Lens.Magnification = scene.Is(u), scene.Number{}
}

// focusable tells whether a focus can be set: the lens is known and nothing pulls it.
func (e *eye) focusable() bool {
	return !e.flat && !e.pulls() && e.focal.Given && e.where.Given
}
