package shot

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/exact"
	"seamrail/motion/rig"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// mover understands what one axis does.
type mover struct {
	*source.Report
	raw  RawAxis
	path string // "axis.rail."
	time timing
}

func (r mover) build(name string) AxisMove {
	rig.CheckName(r.Report, r.raw.Place, strings.TrimSuffix(r.path, "."), name)
	at := r.raw.Place
	m := AxisMove{Name: name, Line: at.Line, Column: at.Column, Origin: at.Origin}
	move, ok := r.move()
	if !ok {
		return m
	}
	m.Move = move
	r.strays(move)
	switch move {
	case ThereAndBack:
		r.thereAndBack(&m)
	case Turn:
		r.turn(&m)
	case Hold:
		m.At, _ = r.position(r.raw.At, "at", "40 mm")
	case Keys:
		r.keys(&m)
	case Through:
		r.through(&m)
	case Aim:
		r.aim(&m)
	case Arc:
		r.arc(&m)
	}
	m.Shaped = r.shaped(&m)
	m.Tuned = r.raw.Ramp.Set || r.raw.JerkShare.Set || r.raw.Least.Set || r.raw.Swings.Set || r.raw.SwingDamping.Set
	return m
}

// move reads the move, or tells it from the keys that are there.
func (r mover) move() (string, bool) {
	if r.raw.Move.Set {
		return r.Choice(r.raw.Move, r.path+"move", Moves()...)
	}
	var fits []string
	for _, c := range []struct {
		move string
		sign bool
	}{
		{ThereAndBack, r.raw.From.Set || r.raw.To.Set}, {Turn, r.raw.Turns.Set},
		{Keys, r.raw.Keys != nil}, {Hold, r.raw.At.Set}, {Aim, r.raw.Follow.Set},
	} {
		if c.sign {
			fits = append(fits, c.move)
		}
	}
	if len(fits) != 1 {
		r.Missing(r.raw.Place, r.path+"move", fmt.Sprintf("%q; there are %s", ThereAndBack, strings.Join(Moves(), ", ")))
		return "", false
	}
	r.Default(r.path+"move", fits[0], "as its keys say")
	return fits[0], true
}

// outAndBack are the keys of a move that comes back by itself.
var outAndBack = []string{"from", "to", "law", "back-law", "ramp", "jerk-share", "least", "swings", "swing-damping", "cycles", "out-share", "dwell-far", "dwell-near", "phase"}

// suits says which keys belong to which move.
var suits = map[string][]string{
	ThereAndBack: slices.Concat(outAndBack, []string{"shaped"}),
	Arc:          append([]string{"point"}, outAndBack...),
	Through:      {"from", "to", "law", "even", "ramp", "jerk-share"},
	Aim:          {"follow", "as", "point", "focal", "marks"},
	Turn:         {"turns", "start", "symmetry", "law", "ramp", "jerk-share", "least", "swings", "swing-damping", "shaped"},
	Hold:         {"at"},
	Keys:         {"curve", "advance", "keys", "shaped"},
}

// KeysOf returns the keys that belong to a move, besides move itself.
func KeysOf(move string) []string { return slices.Clone(suits[move]) }

// strays reports keys of other moves.
func (r mover) strays(move string) {
	for _, k := range r.present() {
		if slices.Contains(suits[move], k.key) {
			continue
		}
		r.Add(k.at, r.path+k.key, "", fmt.Sprintf("does not belong to the move %q", move),
			"its keys are "+strings.Join(suits[move], ", "))
	}
}

type present struct {
	key string
	at  source.Place
}

func (r mover) present() []present {
	a := r.raw
	var out []present
	for _, k := range []struct {
		key  string
		text source.Text
	}{
		{"from", a.From}, {"to", a.To}, {"law", a.Law}, {"back-law", a.BackLaw}, {"ramp", a.Ramp},
		{"jerk-share", a.JerkShare}, {"least", a.Least}, {"swings", a.Swings}, {"swing-damping", a.SwingDamping}, {"cycles", a.Cycles}, {"out-share", a.OutShare},
		{"dwell-far", a.DwellFar}, {"dwell-near", a.DwellNear}, {"phase", a.Phase},
		{"turns", a.Turns}, {"start", a.Start}, {"symmetry", a.Symmetry}, {"at", a.At}, {"curve", a.Curve}, {"advance", a.Advance},
		{"even", a.Even}, {"follow", a.Follow}, {"as", a.As}, {"focal", a.Focal}, {"shaped", a.Shaped},
	} {
		if k.text.Set {
			out = append(out, present{k.key, k.text.Place()})
		}
	}
	if a.Keys != nil {
		out = append(out, present{"keys", a.Place})
	}
	if a.Point.Set {
		out = append(out, present{"point", a.Point.Place()})
	}
	if a.Marks != nil {
		out = append(out, present{"marks", a.Place})
	}
	return out
}

// position reads a length or an angle that has to be there.
func (r mover) position(t source.Text, key, example string) (unit.Quantity, bool) {
	if !t.Set {
		r.Missing(r.raw.Place, r.path+key, fmt.Sprintf("%q", example))
		return unit.Quantity{}, false
	}
	return r.Quantity(t, r.path+key, unit.Length, unit.Angle)
}

// share reads a share that fits, or returns the fallback; bound says in words
// what fits.
func (r mover) share(t source.Text, key string, fallback exact.Rat, why string, fits func(exact.Rat) bool, bound string) exact.Rat {
	if !t.Set {
		r.Default(r.path+key, fallback.String(), why)
		return fallback
	}
	q, ok := r.Quantity(t, r.path+key, unit.Number)
	if !ok {
		return fallback
	}
	if !fits(q.Value) {
		r.Wrong(t, r.path+key, "must be "+bound, fmt.Sprintf("%s would do", fallback))
		return fallback
	}
	return q.Value
}

// dwell reads a time that may be left out.
func (r mover) dwell(t source.Text, key string) exact.Rat {
	if !t.Set {
		r.Default(r.path+key, "0 frames", "it turns round at once")
		return exact.Rat{}
	}
	d, _ := r.time.real(r.Report, t, r.path+key)
	return d
}
