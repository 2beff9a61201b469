package against

import (
	"cmp"
	"math"
	"slices"
)

// blowPart is one of what was laid on top for a blow: a swing, a shift, or both. A blow may take
// several, where it swings in more than one way.
type blowPart struct {
	label
	on     []effect // px, frame by frame
	begins int
	px     float64 // the most
	swing  float64 // px, as it begins to swing
	fades  float64 // s until nobody sees it
	moved  Number  // px that stay
}

// event is a blow with all its parts.
type event struct {
	parts  []blowPart
	begins int
	Shock
}

// partOf is what was laid on top for a blow.
func (w *witness) partOf(x extra) blowPart {
	l := w.full
	p := blowPart{label: x.label, on: l.laidOn(x), begins: max(0, int(math.Round(l.shown(x.label.frame))))}
	for _, on := range p.on {
		p.px = max(p.px, on.size())
	}
	if q := x.label.swing; q != nil && len(x.beta) != ways {
		p.swing = math.Hypot(x.beta[0], x.beta[1])
		if p.swing > quiet {
			p.fades = q.Fades(p.swing, quiet)
		}
	}
	if n := len(x.beta); n >= ways {
		var e, sure effect
		copy(e[:], x.beta[n-ways:])
		copy(sure[:], x.sure[n-ways:])
		p.moved = Number{e.size(), w.grow * sure.along(e)}
	}
	return p
}

// still is by how many px it swings, at the most, at a frame.
func (p blowPart) still(frame int, rate float64) float64 {
	if p.label.swing == nil || frame < p.begins {
		return 0
	}
	return p.swing * math.Exp(-p.label.swing.Damping*p.label.swing.Omega()*float64(frame-p.begins)/rate)
}

const (
	// anew is the share of what still swings of a blow before that another must bring to be one: less
	// is what the first was told wrong by.
	anew = 0.5
	// foretold is the share of a blow that what seems to come before it may have: what is fitted a
	// little early.
	foretold = 0.1
	// foreSeconds is how long before, s.
	foreSeconds = 0.5
)

// belongs tells whether a part is one of an event's and no blow of its own.
func (e event) belongs(p blowPart, rate float64) bool {
	first := e.parts[0]
	apart := p.begins - first.begins
	if within := int(math.Round(blowWindow * rate)); apart <= within && -apart <= within {
		return true
	}
	if apart < 0 {
		return float64(-apart) <= foreSeconds*rate && p.px < foretold*first.px
	}
	still := 0.0
	for _, q := range e.parts {
		still += q.still(p.begins, rate)
	}
	return p.px < anew*still
}

// events are the blows that were found, each once, the first first.
func (w *witness) events() (out []event) {
	l := w.full
	var parts []blowPart
	for _, x := range l.extras {
		if x.label.cause == Blow {
			parts = append(parts, w.partOf(x))
		}
	}
	slices.SortStableFunc(parts, func(a, b blowPart) int { return cmp.Compare(b.px, a.px) })
	for _, p := range parts {
		k := slices.IndexFunc(out, func(e event) bool { return e.belongs(p, l.rate) })
		if k < 0 {
			out = append(out, event{parts: []blowPart{p}})
			continue
		}
		out[k].parts = append(out[k].parts, p)
	}
	for k := range out {
		out[k].sum(l)
	}
	out = slices.DeleteFunc(out, func(e event) bool { return e.Px < quiet || w.shaken(e) })
	slices.SortStableFunc(out, func(a, b event) int { return cmp.Compare(a.begins, b.begins) })
	return out
}

// likeShake is the share by which the frequency of a swing may differ from that of an after-shake
// and be it.
const likeShake = 0.1

// shaken tells whether what looks like a blow is an after-shake that is not the same in each rest: it
// comes as a move ends, swings as fast, and moves the picture by less.
func (w *witness) shaken(e event) bool {
	for _, x := range w.full.extras {
		s, own := x.label.swing, e.parts[0].label.swing
		if x.label.cause != AfterShake || own == nil || math.Abs(own.Frequency/s.Frequency-1) > likeShake || !w.full.ends(e.parts[0].label.frame) {
			continue
		}
		most := 0.0
		for _, on := range w.full.laidOn(x) {
			most = max(most, on.size())
		}
		return e.Px < most
	}
	return false
}

// ends tells whether a move ended just before a planned frame.
func (l *laid) ends(frame float64) bool {
	for _, rests := range l.allRests() {
		for _, r := range rests {
			if frame > r.from-1 && frame < r.from+blowWindow*l.rate {
				return true
			}
		}
	}
	return false
}

// sum works out a blow from its parts: it begins with the first frame that is seen to be off.
func (e *event) sum(l *laid) {
	all := make([]effect, l.n)
	var noise, ends float64
	for k := range ways {
		noise = math.Hypot(noise, l.sigma[k])
	}
	e.begins = l.n
	for _, p := range e.parts {
		for i, on := range p.on {
			for k := range on {
				all[i][k] += on[k]
			}
		}
		ends = max(ends, float64(p.begins)+p.fades*l.rate)
		if p.moved.Value > e.Moved.Value {
			e.Moved = p.moved
		}
	}
	for i, on := range all {
		if e.Px = max(e.Px, on.size()); e.begins == l.n && on.size() > max(quiet, sets*noise) {
			e.begins = i
		}
	}
	if e.begins == l.n {
		e.begins = e.parts[0].begins
	}
	e.Frame = math.Round(l.recorded(float64(e.begins)))
	e.Still = max(0, ends-float64(e.begins)) / l.rate
}

// shocks are blows to the table.
func (w *witness) shocks() (out []Shock) {
	for _, e := range w.events() {
		out = append(out, e.Shock)
	}
	return out
}

// told is what of a blow is told by one of its parts: all of it by the first, nothing by others. It
// is false where that part is none that is told.
func (w *witness) told(f found) (found, bool) {
	for _, e := range w.events() {
		for k, p := range e.parts {
			if p.label != f.label {
				continue
			}
			f.shows, f.frame = e.Px, w.full.planned(float64(e.begins))
			for _, g := range w.found {
				if slices.ContainsFunc(e.parts[1:], func(q blowPart) bool { return q.label == g.label }) {
					f.lowers += g.lowers
				}
			}
			return f, k == 0
		}
	}
	return f, false
}
