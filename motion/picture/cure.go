package picture

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"seamrail/motion/light"
)

// remedy is a change that may cure a check: of the scene, of the motion, or both.
type remedy struct {
	words string
	on    aspect
	scene func(*Scene) // nil leaves it
	// motion makes another motion and says in words what it is; nil leaves it, false
	// is where there is none.
	motion func() (Motion, string, bool)
	moves  Motion // that motion has made
	// instead is set on another try of the remedy before: it is of no interest where
	// that did.
	instead bool
}

// try adds a change of the scene that may cure a verdict.
func (v *Verdict) try(on aspect, change func(*Scene), format string, args ...any) {
	v.remedies = append(v.remedies, remedy{words: fmt.Sprintf(format, args...), on: on, scene: change})
}

const (
	// trialRows is how many frames a remedy is looked at in, evenly spaced, beside
	// those at which a check was worst without it. A law's peak lies between two of
	// 120 within four thousandths of its height, if not at one of the others.
	trialRows = 120
	// mostCures is how many cures a check is given: nobody reads more.
	mostCures = 4
	// mostCosts is how many checks a cure may make worse and still be told.
	mostCosts = 2
	// worseBy is the share by which a measure must grow to be called worse: what is
	// wrong already is no more so for less, and frames that are looked at differ by it.
	worseBy = 0.05
)

// trials are the remedies that were tried on a picture.
type trials struct {
	e     *eye
	base  []Verdict
	rows  []Row // of the picture as it is, those that remedies are looked at in
	known map[string][]Verdict
}

// prescribe tries the remedies of every verdict. One is told as a cure where its
// check then passes and all that it makes worse is still better than what it cures;
// that is told with it. Where there is none, what was tried is.
func (e *eye) prescribe(r *Report) {
	t := trials{e: e, base: slices.Clone(r.Verdicts), known: map[string][]Verdict{}}
	t.rows = t.some(r.Rows)
	for i := range r.Verdicts {
		v := &r.Verdicts[i]
		var free, costly []string
		for _, o := range t.offers(i) {
			switch {
			case !o.does && o.instead:
			case !o.does:
				v.Failed = append(v.Failed, o.words+o.costs)
			case o.costs == "":
				free = append(free, o.words)
			default:
				costly = append(costly, o.words+o.costs)
			}
		}
		v.Cures, v.remedies = first(append(free, costly...)), nil
		if v.Failed = first(v.Failed); len(v.Cures) > 0 {
			v.Failed = nil
		}
	}
}

func first(list []string) []string { return list[:min(len(list), mostCures)] }

// offer is a remedy that was tried.
type offer struct {
	remedy
	costs string // what it makes worse, as words to follow it
	does  bool   // it cures its check at no greater cost
}

// offers tries the remedies of check i.
func (t *trials) offers(i int) []offer {
	var out []offer
	did := false
	for _, m := range t.base[i].remedies {
		if m.instead && did {
			continue
		}
		if m.motion != nil {
			var can bool
			if m.moves, m.words, can = m.motion(); !can {
				continue
			}
		}
		o := t.offer(i, m)
		did = o.does
		out = append(out, o)
	}
	return out
}

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

// offer tries a remedy for check i, and where that upsets the light, with the light
// made up for.
func (t *trials) offer(i int, m remedy) offer {
	after := t.after(m)
	if after == nil || !after[i].passes() {
		return offer{remedy: m}
	}
	worse := t.worse(i, after)
	for _, k := range worse {
		if after[k].Check != lightCheck {
			continue
		}
		if b, ok := t.balanced(m, after[k]); ok {
			if then := t.after(b); then != nil && then[i].passes() && len(t.worse(i, then)) < len(worse) {
				m, after, worse = b, then, t.worse(i, then)
				break
			}
		}
	}
	o := offer{remedy: m, does: len(worse) <= mostCosts}
	var said []string
	for _, k := range worse {
		said = append(said, after[k].cost())
		o.does = o.does && after[k].Level.rank() < t.base[i].Level.rank()
	}
	if said != nil {
		o.costs = ", but then " + strings.Join(said, " and ")
	}
	return o
}

// passes tells whether a check is in order, as far as it is known.
func (v Verdict) passes() bool { return v.Level == Good || v.Level == Unknown && v.partial }

// rank is how bad a level is: what is not known is not held against a cure.
func (l Level) rank() int { return max(int(l), int(Good)) }

// worse lists the other checks that come out worse than they were.
func (t *trials) worse(i int, after []Verdict) []int {
	var out []int
	for k, v := range after {
		was := t.base[k]
		grew := v.Level.rank() > int(Good) && v.gauge > was.gauge+worseBy*math.Abs(was.gauge)
		if k != i && (v.Level.rank() > was.Level.rank() || v.Level == was.Level && grew) {
			out = append(out, k)
		}
	}
	return out
}

// cost says what a check is like after a cure of another.
func (v Verdict) cost() string {
	if stops, ok := v.Figure(stopsFigure); ok && v.Check == lightCheck {
		if stops > 0 {
			return short(stops) + " stops of light are missing"
		}
		return "there are " + short(-stops) + " stops of light too much"
	}
	return v.Check + map[Level]string{Fair: " will only just do", Poor: " will not look right", Block: " must not be driven"}[v.Level]
}

// balanced is a remedy with the light made up for, by the sensitivity, or by a filter
// where no lower one is marked.
func (t *trials) balanced(m remedy, after Verdict) (remedy, bool) {
	stops, ok := after.Figure(stopsFigure)
	iso := t.e.scene.Camera.ISO
	if !ok || !iso.Given {
		return m, false
	}
	want, change := iso.Value*math.Exp2(stops), m.scene
	if marked := light.AtLeastISO(want); stops > 0 && marked <= mostISO || marked < iso.Value && marked*(1-t.e.bounds.Stops/2) <= want {
		m.words = with(m.words, "ISO "+round(marked, 4))
		m.scene = func(s *Scene) { apply(change, s); s.Camera.ISO = Is(marked) }
	} else {
		density := math.Max(0, filterFor(-stops))
		if density == 0 {
			return m, false
		}
		all := t.e.scene.Lens.Density.Or(0) + density
		m.words = with(m.words, filterText(all))
		m.scene = func(s *Scene) { apply(change, s); s.Lens.Density = Is(all) }
	}
	m.on |= ofLight
	return m, true
}

// with adds to the words of a change.
func with(words, more string) string {
	if strings.Contains(words, " with ") {
		return words + " and " + more
	}
	return words + " with " + more
}

func apply(change func(*Scene), s *Scene) {
	if change != nil {
		change(s)
	}
}

// after are the answers with a remedy in place, nil where it cannot be.
func (t *trials) after(m remedy) []Verdict {
	if out, known := t.known[m.words]; known {
		return out
	}
	out := t.tried(m)
	t.known[m.words] = out
	return out
}

func (t *trials) tried(m remedy) []Verdict {
	s, motion := t.e.resolved(), t.e.motion
	apply(m.scene, &s)
	if m.moves != nil {
		motion = m.moves
	}
	x, err := newEye(motion, s)
	if err != nil {
		return nil
	}
	checks := x.checks(t.rowsOf(x, m.on))
	if len(checks) != len(t.base) {
		return nil
	}
	out := slices.Clone(t.base)
	for i, c := range checks {
		if c.on&m.on != 0 {
			out[i] = c.answer()
		}
	}
	return out
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
func (e *eye) resolved() Scene {
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
func refocused(s *Scene, u float64) { s.Lens.Focus, s.Lens.Magnification = Is(u), Number{} }

// focusable tells whether a focus can be set: the lens is known and no axis pulls it.
func (e *eye) focusable() bool {
	return !e.flat && e.pull < 0 && e.focal.Given && e.where.Given
}
