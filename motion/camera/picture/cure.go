package picture

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/scene"
)

// remedy is a change that may cure a check: of the scene, of the motion, or both.
type remedy struct {
	words string
	on    aspect
	edits []fault.Edit       // that make it of the shot's file; none where it is for a hand
	scene func(*scene.Scene) // the same where there is no file; nil leaves it
	// motion makes another motion and says in words what it is; nil leaves it, false
	// is where there is none.
	motion func(*remedy) bool
	moves  Motion // that motion has made
	// instead is set on another try of the remedy before: it is of no interest where
	// that did.
	instead bool
}

// try adds a change of the scene that may cure a verdict. What the shot's file would have
// to say is added to it by as; without that it is for a hand.
func (v *Verdict) try(on aspect, change func(*scene.Scene), format string, args ...any) *remedy {
	v.remedies = append(v.remedies, remedy{words: fmt.Sprintf(format, args...), on: on, scene: change})
	return &v.remedies[len(v.remedies)-1]
}

// as adds a value that the shot's file has with the remedy in place.
func (m *remedy) as(path, text string) *remedy {
	m.edits = append(m.edits, fault.Edit{Path: path, Text: text})
	return m
}

const (
	// trialRows is how many frames a remedy is looked at in, evenly spaced, beside
	// those at which a check was worst without it. A law's peak lies between two of
	// 120 within four thousandths of its height, if not at one of the others.
	trialRows = 120
	// maxCures is how many cures a check is given: nobody reads more.
	maxCures = 4
	// maxCosts is how many checks a cure may make worse and still be told.
	maxCosts = 2
	// worseBy is the share by which a measure must grow to be called worse: what is
	// wrong already is no more so for less, and frames that are looked at differ by it.
	worseBy = 0.05
)

// trials are the remedies that were tried on a picture.
type trials struct {
	e     *eye
	base  []Verdict
	rows  []Row // of the picture as it is, those that remedies are looked at in
	known map[string]*trial
}

// prescribe tries the remedies of every verdict. One is told as a cure where its
// check then passes and all that it makes worse is still better than what it cures;
// that is told with it. Where there is none, what was tried is.
func (e *eye) prescribe(r *Report) {
	t := trials{e: e, base: slices.Clone(r.Verdicts), known: map[string]*trial{}}
	t.rows = t.some(r.Rows)
	for i := range r.Verdicts {
		v := &r.Verdicts[i]
		var free, costly fault.Cures
		for _, o := range t.offers(i) {
			switch {
			case !o.does && o.instead:
			case !o.does:
				v.Failed = append(v.Failed, o.words+o.costs)
			case o.costs == "":
				free = append(free, o.cure())
			default:
				costly = append(costly, o.cure())
			}
		}
		v.Cures, v.remedies = first(append(free, costly...)), nil
		if v.Failed = first(v.Failed); len(v.Cures) > 0 {
			v.Failed = nil
		}
	}
}

func first[L ~[]T, T any](list L) L { return list[:min(len(list), maxCures)] }

// offer is a remedy that was tried.
type offer struct {
	remedy
	costs string // what it makes worse, as words to follow it
	does  bool   // it cures its check at no greater cost
}

func (o offer) cure() fault.Cure {
	return fault.Cure{Words: o.words, Edits: o.edits, Costs: o.costs}
}

// offers tries the remedies of check i.
func (t *trials) offers(i int) []offer {
	var out []offer
	did := false
	for _, m := range t.base[i].remedies {
		if t.e.ended() {
			return nil
		}
		if m.instead && did {
			continue
		}
		if m.motion != nil && !m.motion(&m) {
			continue
		}
		o := t.offer(i, m)
		did = o.does
		out = append(out, o)
	}
	return out
}

// offer tries a remedy for check i, and where that upsets the light, with the light
// made up for.
func (t *trials) offer(i int, m remedy) offer {
	after := t.after(m)
	if after == nil || !after.answer(i).passes() {
		return offer{remedy: m}
	}
	worse := t.worse(i, after)
	for _, v := range worse {
		if b, ok := t.balanced(m, v); ok {
			if then := t.after(b); then != nil && then.answer(i).passes() && len(t.worse(i, then)) < len(worse) {
				m, worse = b, t.worse(i, then)
			}
			break
		}
	}
	o := offer{remedy: m, does: len(worse) <= maxCosts}
	var said []string
	for _, v := range worse {
		said = append(said, v.cost())
		o.does = o.does && v.Level.rank() < t.base[i].Level.rank()
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
func (t *trials) worse(i int, after *trial) []Verdict {
	var out []Verdict
	for k, was := range t.base {
		v := after.answer(k)
		grew := v.Level.rank() > int(Good) && v.gauge > was.gauge+worseBy*math.Abs(was.gauge)
		if k != i && (v.Level.rank() > was.Level.rank() || v.Level == was.Level && grew) {
			out = append(out, v)
		}
	}
	return out
}

// cost says what a check is like after a cure of another.
func (v Verdict) cost() string {
	if stops, ok := v.Figure(stopsFigure); ok && v.Check == lightCheck {
		if stops > 0 {
			return stopsOf(stops) + " of light are missing"
		}
		return "there are " + stopsOf(-stops) + " of light too much"
	}
	return v.Check + map[Level]string{Fair: " will only just do", Poor: " will not look right", Block: " must not be driven"}[v.Level]
}
