package move

import (
	"cmp"
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/track"
	"seamrail/motion/turntable/spin"
)

// TurnKeys are the keys of a turn.
type TurnKeys struct {
	Turns source.Text `toml:"turns" jsonschema:"example=1/6,example=-1" jsonschema_description:"turn: how far round in a loop; below 0 backwards."`
	Start source.Text `toml:"start" jsonschema:"example=0 deg" jsonschema_description:"turn: where the first frame finds it."`

	Symmetry source.Text `toml:"symmetry" jsonschema:"example=6" jsonschema_description:"turn: faces of the product that look alike; left out, nothing is said of them."`

	Law          source.Text `toml:"law" jsonschema:"-"`
	Ramp         source.Text `toml:"ramp" jsonschema:"-"`
	JerkShare    source.Text `toml:"jerk-share" jsonschema:"-"`
	Least        source.Text `toml:"least" jsonschema:"-"`
	Swings       source.Text `toml:"swings" jsonschema:"-"`
	SwingDamping source.Text `toml:"swing-damping" jsonschema:"-"`
}

// maxTurns keeps a slip of the finger from spinning glass.
const maxTurns = 1000

const degreesPerTurn = 360

// Name is the name of the move.
func (TurnKeys) Name() string { return "turn" }

// Told tells it from how far round.
func (k TurnKeys) Told() bool { return k.Turns.Set }

// Read reads how far round, by which law.
func (k TurnKeys) Read(r *Reader) Move {
	keys := ThereAndBackKeys{Law: k.Law, Ramp: k.Ramp, JerkShare: k.JerkShare,
		Least: k.Least, Swings: k.Swings, SwingDamping: k.SwingDamping}
	l := lawReader{r, keys, law.Uniform(), "round and round without a pause"}
	m := Turn{Law: l.one(), tuned: l.tuned(), Start: unit.Quantity{Dim: unit.Angle}}
	if !k.Start.Set {
		r.Default(r.Path+"start", "0 deg", "wherever it stands is called 0")
	} else {
		m.Start, _ = r.Quantity(k.Start, r.Path+"start", unit.Angle)
	}
	if !k.Turns.Set {
		r.Missing(r.At, r.Path+"turns", `"1/6"`)
		return m
	}
	q, ok := r.Quantity(k.Turns, r.Path+"turns", unit.Turns, unit.Number)
	switch {
	case !ok:
	case q.Value.Sign() == 0:
		r.Wrong(k.Turns, r.Path+"turns", "must not be 0", `to stay put, use move = "hold"`)
	case exact.Int(maxTurns).Less(q.Value.Abs()):
		r.Wrong(k.Turns, r.Path+"turns", fmt.Sprintf("must be from -%d to %d", maxTurns, maxTurns), "")
	}
	m.Turns = q.Value
	if ok && k.Symmetry.Set {
		m.Symmetry = k.faces(r, m.Turns)
	}
	return m
}

// faces reads the symmetry of what the table carries, and wants each loop to
// end on one of its faces.
func (k TurnKeys) faces(r *Reader, turns exact.Rat) int64 {
	n, ok := Symmetry(r.Report, k.Symmetry, r.Path+"symmetry")
	faces := turns.Mul(exact.Int(n))
	if !ok || faces.IsInt() {
		return n
	}
	fit := ""
	for _, f := range []exact.Rat{faces.Floor(), faces.Ceil()} {
		switch {
		case f.Sign() == 0:
		case fit == "":
			fit = "turns of " + f.Quo(exact.Int(n)).String()
		default:
			fit += " or " + f.Quo(exact.Int(n)).String()
		}
	}
	r.Wrong(k.Symmetry, r.Path+"symmetry",
		fmt.Sprintf("must divide the turn: %s of a turn is %s faces, and the loop would end between two", turns, faces.Decimal(3)), fit+" would do")
	return n
}

// Symmetry reads a count of faces; 1 and false where it is none.
func Symmetry(report *source.Report, t source.Text, path string) (int64, bool) {
	n, err := spin.ParseSymmetry(t.Text)
	if err != nil {
		report.Fail(t, path, err)
		return 1, false
	}
	return n, true
}

// Example is a turn.
func (TurnKeys) Example() string { return "turns = \"1/3\"\nsymmetry = 6\n" }

// Turn goes round by whole or part turns.
type Turn struct {
	Turns    exact.Rat     // in a loop; below 0 backwards
	Start    unit.Quantity // where frame 0 finds it
	Symmetry int64         // faces of the product that look alike; 0 = not stated
	Law      law.Law
	tuned    bool
}

// What it can do.
var (
	_ Turner    = Turn{}
	_ Relawed   = Turn{}
	_ Legged    = Turn{}
	_ Shapeable = Turn{}
	_ Shrinker  = Turn{}
)

// Kind is the name of the move.
func (Turn) Kind() string { return TurnKeys{}.Name() }

// Track goes round.
func (m Turn) Track(period exact.Rat) (*track.Track, error) {
	return track.Turn(period, track.TurnSpec{Start: m.Start.Float(), Turns: m.Turns, Law: m.Law})
}

// Words tells how far round, and how.
func (m Turn) Words(clock.Clock) string {
	by := "at a constant rate"
	if m.Law != nil && !m.Steady() {
		by = "by the " + m.Law.Name() + " law"
	}
	name := "turns"
	if m.Turns.Abs().Cmp(exact.Int(1)) <= 0 {
		name = "turn"
	}
	return fmt.Sprintf("%s %s a loop (%s), from %s, %s", m.Turns, name,
		unit.Format(m.Turns.Mul(exact.Int(degreesPerTurn)).Float(), unit.Angle), m.Start, by)
}

// Suits wants a rotary axis.
func (m Turn) Suits(rotary bool) *fault.Fault {
	if !rotary {
		return &fault.Fault{Quantity: "move", Value: `"turn"`, Bound: "must be on a rotary axis, and this one is linear",
			Fit: "there-and-back, keys or hold would do"}
	}
	return suit(rotary, position{"start", m.Start})
}

// Spots is where it begins: how far it goes is a count of faces, and no place.
func (m Turn) Spots() []Spot {
	return []Spot{{Name: "start", Key: "start", Means: "the turn begins", At: m.Start, Begins: true}}
}

// Grips are where it begins, and how far it goes.
func (m Turn) Grips(s Stage) []Grip {
	start := m.Start.Float()
	return []Grip{
		end("start", "where it begins", 0, m.Start),
		{"turns", AdvanceGrip, VaryPos, "the turn", float64(s.Captured), start + m.Turns.Float()*degreesPerTurn, func(p Pull) []Edit {
			return []Edit{{"turns", m.turnsTo(p.Pos - start)}}
		}},
	}
}

// plainFaces is how finely a turn is dragged whose product has no faces: by the
// degree.
const plainFaces = 360

// stops is in how many places a turn can end.
func (m Turn) stops() int64 { return cmp.Or(m.Symmetry, plainFaces) }

// Step is from one of them to the next.
func (m Turn) Step() float64 { return degreesPerTurn / float64(m.stops()) }

// turnsTo is the turn nearest to one of so many degrees that ends on a face of
// the product, and goes somewhere.
func (m Turn) turnsTo(degrees float64) string {
	n := int64(math.Round(degrees / m.Step()))
	if n == 0 {
		n = 1
		if degrees < 0 {
			n = -1
		}
	}
	return exact.New(n, m.stops()).String()
}

// Turned is how far round.
func (m Turn) Turned() exact.Rat { return m.Turns }

// Faces are those of the product.
func (m Turn) Faces() int64 { return m.Symmetry }

// Steady tells whether it turns at a constant rate.
func (m Turn) Steady() bool { return m.Law != nil && law.IsEven(m.Law) }

// Laws is the law of the turn.
func (m Turn) Laws() (out, back law.Law) { return m.Law, m.Law }

// WithLaws turns by another law.
func (m Turn) WithLaws(out, _ law.Law) Move {
	m.Law = out
	return m
}

// LawKeys is the law's own.
func (Turn) LawKeys() []string { return []string{"law"} }

// Tuned tells whether the law has shares or swings that are stated.
func (m Turn) Tuned() bool { return m.tuned }

// Leg is the whole turn.
func (m Turn) Leg(period exact.Rat) (travel float64, seconds exact.Rat) {
	return math.Abs(m.Turns.Float()) * degreesPerTurn, period
}

// Shakeless is a turn without end.
func (m Turn) Shakeless() (why, fit string) {
	if m.Steady() {
		return "a turn at a constant rate shakes nothing", `turn by another law, such as law = "3-4-5"`
	}
	return "", ""
}

// Quickened rests at the end.
func (m Turn) Quickened(period, lasts exact.Rat) (*track.Track, bool, error) {
	t, err := track.Turn(period, track.TurnSpec{Start: m.Start.Float(), Turns: m.Turns, Law: m.Law, Rest: lasts})
	return t, false, err
}

// roundingSlack is what a count of faces may be missed by, as a share.
const roundingSlack = 1e-12

// maxParts is the finest part of a turn that is offered: few products have
// more like faces than a clock has minutes.
const maxParts = 60

// Shrunk is the largest whole part of a turn, since only whole parts close the
// loop of a product with as many like faces; where that would end between two faces of
// the product, as many of them as it can.
func (m Turn) Shrunk(share, _, _ float64, _ clock.Clock) []Change {
	most := math.Abs(m.Turns.Float()) * share
	num, den := int64(1), math.Ceil(1/most)
	if m.Symmetry > 0 && math.Mod(float64(m.Symmetry), den) != 0 {
		num, den = int64(most*float64(m.Symmetry)*(1+roundingSlack)), float64(m.Symmetry)
	}
	if !(den <= maxParts) || num == 0 {
		return nil
	}
	less := m
	less.Turns = exact.New(num*int64(m.Turns.Sign()), int64(den))
	if less.Turns.Abs().Equal(m.Turns.Abs()) {
		return nil
	}
	return []Change{{less, []Edit{{"turns", less.Turns.String()}}, fmt.Sprintf("turns = %q in this loop", less.Turns)}}
}

// Plain says what it does.
func (TurnKeys) Plain() string { return "Round and round" }

// Suited wants an axis that turns.
func (TurnKeys) Suited(p Past) bool { return p.Driven && p.Rotary }

// Apart is none.
func (TurnKeys) Apart() []string { return nil }

// Becomes goes on by as much as it gained so far, and else by a face of the product.
func (TurnKeys) Becomes(p Past) []source.Row {
	start := source.Pair{Key: "start", Value: Place(p.Start, DragGrain, unit.Angle)}
	var out []source.Row
	if gain := p.Track.Advance(); gain.Sign() != 0 {
		turns := gain.Quo(exact.Int(degreesPerTurn))
		row := source.Row{{Key: "turns", Value: turns.String()}, start}
		if p.Faces > 1 && turns.Mul(exact.Int(p.Faces)).IsInt() {
			row = append(row, source.Pair{Key: "symmetry", Value: fmt.Sprint(p.Faces)})
		}
		out = append(out, row)
	}
	return append(out, append(byFace(p.Faces), start), append(byFace(1), start))
}

// byFace is a turn by one of so many faces that look alike.
func byFace(faces int64) source.Row {
	row := source.Row{{Key: "turns", Value: exact.New(1, faces).String()}}
	if faces > 1 {
		row = append(row, source.Pair{Key: "symmetry", Value: fmt.Sprint(faces)})
	}
	return row
}
