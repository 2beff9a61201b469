package reach

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// mix is several changes of a shot at once.
type mix struct {
	shot  shot.Shot
	edits []fault.Edit
	words []string
}

// with is the mix with one more change, of an axis.
func (m mix) with(i int, does move.Move, edits []move.Edit, words string) mix {
	name := m.shot.Axes[i].Name
	return mix{withMove(m.shot, i, does), slices.Concat(m.edits, editsOf(name, edits)), append(slices.Clip(m.words), "axis "+name+" with "+words)}
}

// softer are the laws that a mix tries, the quickest first: none jumps in speed or acceleration.
var softer = []string{"", "3-4-5", "4-5-6-7"}

// mixedFit offers several changes together, where none does alone: of every axis that breaks
// something another place, a shorter way or keys further apart in time, another law, one round, and
// then a longer loop. What changes least is tried first.
func mixedFit(s shot.Shot, r rig.Rig, broken map[string][]plan.Breach) []Fit {
	for _, rounds := range slices.Compact([]int{s.Rounds, 1}) {
		for _, law := range softer {
			for k := range placings {
				m, changed := mixed(s, r, broken, rounds, law, k)
				if !changed {
					continue
				}
				if f, ok := m.fit(r); ok {
					return []Fit{f}
				}
			}
		}
	}
	return nil
}

// mixed is a shot with such changes, and whether that is one with all that are asked for.
func mixed(s shot.Shot, r rig.Rig, broken map[string][]plan.Breach, rounds int, named string, k int) (mix, bool) {
	m := mix{shot: s}
	if rounds != s.Rounds {
		m.shot.Rounds = rounds
		m.edits = append(m.edits, fault.Edit{Path: "take.rounds", Text: fmt.Sprint(rounds)})
		m.words = append(m.words, fmt.Sprintf("rounds = %d", rounds))
	}
	lawed, placed := named == "", k == 0
	for i := range s.Axes {
		b := broken[s.Axes[i].Name]
		if len(b) == 0 {
			continue
		}
		if own, ok := m.shot.Axes[i].Does.(move.Relawed); ok && named != "" && !own.Tuned() {
			l, _ := law.Named(named)
			var edits []move.Edit
			for _, key := range own.LawKeys() {
				edits = append(edits, move.Edit{Key: key, Text: named})
			}
			m, lawed = m.with(i, own.WithLaws(l, l), edits, fmt.Sprintf("law = %q", named)), true
		}
		if c, ok := placing(m.shot, r, i, b, k); ok {
			m, placed = m.with(i, c.Move, c.Edits, strings.TrimSuffix(c.Words, ", in this loop")), true
		}
	}
	return m, lawed && placed && len(m.words) > 0
}

// placings is how many ways placing knows: none, elsewhere, keys spread, and shares of the way.
const placings = 6

// placing is the k-th way to have a move elsewhere.
func placing(s shot.Shot, r rig.Rig, i int, broken []plan.Breach, k int) (move.Change, bool) {
	does := s.Axes[i].Does
	switch k {
	case 0:
	case 1:
		if own, ok := does.(move.Shifter); ok && inward(broken) != 0 {
			return own.Shifted(inward(broken)), true
		}
	case 2:
		return spread(s, does)
	default:
		first, _ := spread(s, does)
		if first.Move != nil {
			does = first.Move
		}
		if own, ok := does.(move.Shrinker); ok {
			axis, _ := r.Axis(s.Axes[i].Name)
			low, high := room(axis, broken)
			if all := own.Shrunk([]float64{1, 0.5, 0.2}[k-3], low, high, s.Clock); len(all) > 0 {
				return after(first, all[0]), true
			}
		}
	}
	return move.Change{}, false
}

// spread has the keys of a move so far apart in time that they fill the loop: between those that
// are close to each other a smooth curve goes far beyond them in the rest of it.
func spread(s shot.Shot, does move.Move) (move.Change, bool) {
	keyed, ok := does.(move.Keyed)
	own, ok2 := does.(move.Scheduled)
	if !ok || !ok2 || len(keyed.Listed()) < 2 {
		return move.Change{}, false
	}
	keys := keyed.Listed()
	last := keys[len(keys)-1].At
	times := s.Loop.Real().Quo(last.Mul(exact.New(int64(len(keys)), int64(len(keys)-1))))
	if !exact.Int(1).Less(times) {
		return move.Change{}, false
	}
	c := own.Slowed(times, s.Clock)
	c.Words = fmt.Sprintf("every time of its keys %s times as late", times.Decimal(2))
	return c, true
}

// after is a change of a move after another one of it.
func after(first, then move.Change) move.Change {
	then.Edits = merged(first.Edits, then.Edits, func(e move.Edit) string { return e.Key })
	if first.Words != "" {
		then.Words = first.Words + " and " + then.Words
	}
	return then
}

// fit is the mix in the loop as it is, or in the shortest longer one that does.
func (m mix) fit(r rig.Rig) (Fit, bool) {
	words := strings.Join(m.words, ", ")
	f := Fit{Kind: "both", Shot: m.shot, Edits: m.edits, Text: words + ", in this loop"}
	if fits := tried(r, f); len(fits) > 0 {
		return fits[0], true
	}
	for _, whole := range []func(shot.Shot, rig.Rig) (Fit, bool){loopFit, slowerFit} {
		f, ok := whole(m.shot, r)
		if !ok {
			continue
		}
		one := f.In
		f.Kind, f.In = "both", func(l clock.Loop) (string, []fault.Edit) {
			text, more := one(l)
			return strings.TrimSuffix(text, " at this travel") + ", and " + words, merged(m.edits, more, func(e fault.Edit) string { return e.Path })
		}
		return f.in(f.Shot.Loop), true
	}
	return Fit{}, false
}

// merged are edits of which later ones take the place of those of the same value before.
func merged[E any](edits, more []E, of func(E) string) []E {
	out := slices.DeleteFunc(slices.Clone(edits), func(e E) bool {
		return slices.ContainsFunc(more, func(x E) bool { return of(x) == of(e) })
	})
	return append(out, more...)
}
