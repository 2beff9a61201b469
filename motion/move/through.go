package move

import (
	"fmt"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

// ThroughKeys are the keys of a pass.
type ThroughKeys struct {
	From      source.Text `toml:"from" jsonschema:"-" jsonschema_description:"through: where the first frame finds it."`
	To        source.Text `toml:"to" jsonschema:"-" jsonschema_description:"through: where the frame after the last would be."`
	Law       source.Text `toml:"law" jsonschema:"-"`
	Even      source.Text `toml:"even" jsonschema:"example=1/2" jsonschema_description:"through: share of the way gone at an even speed, the law on top of it; above 1 it is slower in the middle."`
	Ramp      source.Text `toml:"ramp" jsonschema:"-"`
	JerkShare source.Text `toml:"jerk-share" jsonschema:"-"`
}

// Name is the name of the move.
func (ThroughKeys) Name() string { return "through" }

// Told is never: its keys are those of others.
func (ThroughKeys) Told() bool { return false }

// Read reads a pass: across once at speed, and cut back to its beginning.
func (k ThroughKeys) Read(r *Reader) Move {
	from, ok := r.position(k.From, "from", "40 mm")
	to, ok2 := r.position(k.To, "to", "280 mm")
	if ok && ok2 {
		r.ends(from, to, k.To)
	}
	keys := ThereAndBackKeys{Law: k.Law, Ramp: k.Ramp, JerkShare: k.JerkShare}
	l := lawReader{r, keys, law.Uniform(), "across at an even speed"}
	m := Through{From: from, To: to, Law: l.one(), tuned: l.tuned()}
	m.Even = k.even(r, m)
	return m
}

// maxEven is past where any law of the catalogue would stand still in the
// middle; the law itself says where.
var maxEven = exact.Int(10)

func (k ThroughKeys) even(r *Reader, m Through) exact.Rat {
	if m.Law == nil || m.Law.At(0).V != 0 {
		if k.Even.Set && m.Law != nil {
			r.Wrong(k.Even, r.Path+"even", "has no meaning for this law, which is even by itself", `it is for laws such as "3-4-5"`)
		}
		return exact.Rat{}
	}
	fits := func(s exact.Rat) bool { return s.Sign() >= 0 && s.Less(maxEven) }
	even := r.share(k.Even, "even", exact.Rat{}, "by the law alone", fits, "0 or more, and below 10")
	if _, err := track.Even(m.Law, even.Float()); err != nil {
		r.Fail(k.Even, r.Path+"even", err)
	} else if l, _ := track.Even(m.Law, even.Float()); l.At(0).A != 0 {
		r.Wrong(k.Law, r.Path+"law", "pushes at both its ends, and would jump at the cut", `"uniform", "3-4-5" or "cycloidal" would do`)
	}
	return even
}

// Example is a pass.
func (ThroughKeys) Example() string {
	return "move = \"through\"\nfrom = \"40 mm\"\nto = \"120 mm\"\n"
}

// Through crosses the used part of its way once, and is cut back to its beginning.
type Through struct {
	From, To unit.Quantity
	Law      law.Law
	Even     exact.Rat // share of the way gone at an even speed, the law on top of it
	tuned    bool
}

// What it can do.
var (
	_ Passer   = Through{}
	_ Relawed  = Through{}
	_ Ranging  = Through{}
	_ Shrinker = Through{}
	_ Shifter  = Through{}
)

// Kind is the name of the move.
func (Through) Kind() string { return ThroughKeys{}.Name() }

// Track is the way across, which does not close.
func (m Through) Track(period exact.Rat) (*track.Track, error) {
	l, err := track.Even(m.Law, m.Even.Float())
	if err != nil {
		return nil, err
	}
	return track.Through(period, track.ThroughSpec{From: m.From.Float(), To: m.To.Float(), Law: l})
}

// Cut is the way across.
func (m Through) Cut() float64 { return m.To.Float() - m.From.Float() }

// Words tells the way and its law.
func (m Through) Words(clock.Clock) string {
	words := fmt.Sprintf("through from %s to %s, by the %s law", m.From, m.To, m.Law.Name())
	if m.Even.Sign() != 0 {
		words += fmt.Sprintf(", %s of the way at an even speed", m.Even)
	}
	return words + "; cut back to its beginning"
}

// Suits wants ends that the axis has.
func (m Through) Suits(rotary bool) *fault.Fault {
	return suit(rotary, position{"from", m.From}, position{"to", m.To})
}

// Spots are the two sides of the cut.
func (m Through) Spots() []Spot {
	return ends(m.From, m.To, "what is shown begins, and the cut leads to", "what is shown ends, at the cut")
}

// Grips are the ends.
func (m Through) Grips(s Stage) []Grip {
	return []Grip{end("from", "where it begins", 0, m.From), end("to", "where it ends", float64(s.Captured), m.To)}
}

// Range are the ends.
func (m Through) Range() [2]End { return fromToRange(m.From, m.To) }

// Laws is the law across.
func (m Through) Laws() (out, back law.Law) { return m.Law, m.Law }

// WithLaws goes across by another law.
func (m Through) WithLaws(out, _ law.Law) Move {
	m.Law = out
	return m
}

// LawKeys is the law's own.
func (Through) LawKeys() []string { return []string{"law"} }

// Tuned tells whether the law has ramps that are stated.
func (m Through) Tuned() bool { return m.tuned }

// Shrunk is the pass to nearer ends.
func (m Through) Shrunk(share, low, high float64, _ clock.Clock) []Change {
	return shrunk(m.From, m.To, share, low, high, func(from, to unit.Quantity) Move {
		m.From, m.To = from, to
		return m
	})
}

// Shifted is the pass elsewhere.
func (m Through) Shifted(by float64) Change {
	return shifted(m.From, m.To, by, func(from, to unit.Quantity) Move {
		m.From, m.To = from, to
		return m
	})
}

// Plain says what it does.
func (ThroughKeys) Plain() string { return "Across once, cut back unseen" }

// Suited wants every other axis at rest at the cut.
func (ThroughKeys) Suited(p Past) bool { return p.Driven && !p.Stirs }

// Apart is none.
func (ThroughKeys) Apart() []string { return nil }

// Becomes crosses from one end to the other.
func (ThroughKeys) Becomes(p Past) []source.Row { return []source.Row{p.ends()} }
