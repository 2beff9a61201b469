package move

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

// ThereAndBackKeys are the keys of a move there and back.
type ThereAndBackKeys struct {
	From         source.Text `toml:"from" jsonschema:"example=40 mm" jsonschema_description:"there-and-back: the near end, where it sets out."`
	To           source.Text `toml:"to" jsonschema:"example=100 mm" jsonschema_description:"there-and-back: the far end."`
	Law          source.Text `toml:"law" jsonschema:"example=3-4-5,example=cycloidal" jsonschema_description:"there-and-back, arc, through, turn: the motion law."`
	BackLaw      source.Text `toml:"back-law" jsonschema:"example=modified-sine" jsonschema_description:"there-and-back: the law of the way back, if it is another."`
	Ramp         source.Text `toml:"ramp" jsonschema:"example=1/3" jsonschema_description:"trapezoidal, seven-segment and carried laws: share of the move spent speeding up, and again slowing down; above 0, at most 1/2."`
	JerkShare    source.Text `toml:"jerk-share" jsonschema:"example=1/4" jsonschema_description:"seven-segment law: share of the ramp in which acceleration builds up, and again dies down; above 0, at most 1/2. carried law: in which it dies down; at most 1."`
	Least        source.Text `toml:"least" jsonschema:"enum=acceleration,enum=jerk,enum=snap" jsonschema_description:"softest, quiet and quiet-wide laws: whose greatest value is as small as can be."`
	Swings       source.Text `toml:"swings" jsonschema:"example=6.4" jsonschema_description:"quiet and quiet-wide laws: how often the rig would swing in the time of the move, which is its frequency times the real seconds of the way out."`
	SwingDamping source.Text `toml:"swing-damping" jsonschema:"example=2 %" jsonschema_description:"quiet law: the damping of that swing, as a share of critical."`
	Cycles       source.Text `toml:"cycles" jsonschema:"example=1" jsonschema_description:"there-and-back: times there and back in a loop."`
	OutShare     source.Text `toml:"out-share" jsonschema:"example=1/2" jsonschema_description:"there-and-back: share of the moving time spent on the way out."`
	DwellFar     source.Text `toml:"dwell-far" jsonschema:"example=12 frames" jsonschema_description:"there-and-back: rest at the far end."`
	DwellNear    source.Text `toml:"dwell-near" jsonschema:"example=0.5 s" jsonschema_description:"there-and-back: rest at the near end."`
	Phase        source.Text `toml:"phase" jsonschema:"example=0,example=1/4" jsonschema_description:"there-and-back: share of the loop that is past at the first frame."`
}

// Name is the name of the move.
func (ThereAndBackKeys) Name() string { return "there-and-back" }

// Told tells it from an end.
func (k ThereAndBackKeys) Told() bool { return k.From.Set || k.To.Set }

// Read reads ends, laws and times.
func (k ThereAndBackKeys) Read(r *Reader) Move {
	return ThereAndBack{Ways: k.read(r), tuned: k.laws(r).tuned(), stated: k.Law.Set || k.BackLaw.Set}
}

// Example is a move there and back.
func (ThereAndBackKeys) Example() string { return "from = \"40 mm\"\nto = \"100 mm\"\n" }

// ThereAndBack goes from one end to the other and back.
type ThereAndBack struct {
	Ways
	tuned  bool
	stated bool
}

// What it can do.
var (
	_ Shuttle   = ThereAndBack{}
	_ Legged    = ThereAndBack{}
	_ Shapeable = ThereAndBack{}
	_ Ranging   = ThereAndBack{}
	_ Shrinker  = ThereAndBack{}
	_ Shifter   = ThereAndBack{}
	_ Timed     = ThereAndBack{}
)

// Kind is the name of the move.
func (ThereAndBack) Kind() string { return ThereAndBackKeys{}.Name() }

// Track goes there and back.
func (m ThereAndBack) Track(period exact.Rat) (*track.Track, error) {
	return track.ThereAndBack(period, m.spec())
}

// Words tells ends, laws and dwells.
func (m ThereAndBack) Words(c clock.Clock) string { return m.words(c) }

// Suits wants ends that the axis has.
func (m ThereAndBack) Suits(rotary bool) *fault.Fault {
	return suit(rotary, position{"from", m.From}, position{"to", m.To})
}

// Spots are the ends.
func (m ThereAndBack) Spots() []Spot {
	return ends(m.From, m.To, "the near end, where it begins", "the far end, where it turns")
}

// Range are the ends.
func (m ThereAndBack) Range() [2]End { return fromToRange(m.From, m.To) }

// Ends are near and far.
func (m ThereAndBack) Ends() (near, far unit.Quantity) { return m.From, m.To }

// Visits is how often it goes there and back.
func (m ThereAndBack) Visits() int { return m.Cycles }

// Stays are the dwells.
func (m ThereAndBack) Stays(loop exact.Rat, near bool) ([]Stay, bool) {
	return m.stays(loop, near), true
}

// Laws are those of the way out and back.
func (m ThereAndBack) Laws() (out, back law.Law) { return m.Out, m.Back }

// WithLaws goes by other laws.
func (m ThereAndBack) WithLaws(out, back law.Law) Move {
	return m.WithWays(m.Ways.WithLaws(out, back))
}

// LawKeys has that of the way back where it is another.
func (m ThereAndBack) LawKeys() []string {
	if m.Back.Name() != m.Out.Name() {
		return []string{"law", "back-law"}
	}
	return []string{"law"}
}

// Tuned tells whether a law has shares or swings that are stated.
func (m ThereAndBack) Tuned() bool { return m.tuned }

// StatesLaw tells whether a law is stated.
func (m ThereAndBack) StatesLaw() bool { return m.stated }

// Going is the ways it goes.
func (m ThereAndBack) Going() Ways { return m.Ways }

// WithWays goes other ways.
func (m ThereAndBack) WithWays(w Ways) Move {
	m.Ways = w
	return m
}

// Leg is the quicker way.
func (m ThereAndBack) Leg(period exact.Rat) (travel float64, seconds exact.Rat) {
	share := m.OutShare
	if rest := exact.Int(1).Sub(share); rest.Less(share) {
		share = rest
	}
	return m.Travel(), m.Moving(period).Mul(share)
}

// Shakeless is never: it stops and goes.
func (ThereAndBack) Shakeless() (why, fit string) { return "", "" }

// Quickened rests longer at both ends.
func (m ThereAndBack) Quickened(period, lasts exact.Rat) (*track.Track, bool, error) {
	m.DwellFar, m.DwellNear = m.DwellFar.Add(lasts), m.DwellNear.Add(lasts)
	t, err := m.Track(period)
	return t, false, err
}

// Retimed has dwells so many times as long.
func (m ThereAndBack) Retimed(times exact.Rat) Move { return m.WithWays(m.Ways.Retimed(times)) }

// Shrunk goes to nearer ends.
func (m ThereAndBack) Shrunk(share, low, high float64, _ clock.Clock) []Change {
	return shrunk(m.From, m.To, share, low, high, m.between)
}

// Shifted goes between ends elsewhere.
func (m ThereAndBack) Shifted(by float64) Change { return shifted(m.From, m.To, by, m.between) }

func (m ThereAndBack) between(from, to unit.Quantity) Move {
	m.From, m.To = from, to
	return m
}

// Grips are the ends and the dwells at them, of the first cycle.
func (m ThereAndBack) Grips(s Stage) []Grip {
	period := s.Loop.Real()
	out, cycle := m.WayOut(period), m.Cycle(period)
	at := func(sec exact.Rat) float64 { return s.within(sec.Float() - m.shift(s)) }
	grips := []Grip{
		end("from", "near end", at(exact.Rat{}), m.From),
		end("to", "far end", at(out), m.To),
	}
	if s.Quickest {
		return grips
	}
	dwell := func(key, label string, sec exact.Rat, pos unit.Quantity) Grip {
		return Grip{key, DwellGrip, VaryTime, label, at(sec), pos.Float(), func(p Pull) []Edit {
			return []Edit{{key, FramesText(m.dwell(s, key == "dwell-far", *p.Frame))}}
		}}
	}
	return append(grips,
		dwell("dwell-far", "end of the rest at the far end", out.Add(m.DwellFar), m.To),
		dwell("dwell-near", "beginning of the rest at the near end", cycle.Sub(m.DwellNear), m.From))
}

// shift is the real seconds into its cycle at which frame 0 finds the move.
func (m ThereAndBack) shift(s Stage) float64 { return m.Phase.Mul(s.Loop.Real()).Float() }

const (
	// settledFrame is what the end of a loop may be missed by, in frames.
	settledFrame = 1e-6
	// minMoving is the timeline frames that a cycle keeps to move in.
	minMoving = 2
)

// dwell is the timeline frames of a rest whose end, or at the near end whose
// beginning, was dragged to a captured frame. As the rest at the far end grows,
// both legs give way in their shares.
func (m ThereAndBack) dwell(s Stage, far bool, frame float64) int64 {
	sec := frame/s.rate() + m.shift(s)
	if loop := s.Loop.Real().Float(); sec > loop+settledFrame/s.rate() {
		sec -= loop
	}
	cycle, share := m.Cycle(s.Loop.Real()).Float(), m.OutShare.Float()
	rest, other := cycle-sec, m.DwellFar.Float()
	if far {
		other = m.DwellNear.Float()
		rest = (sec - share*(cycle-other)) / (1 - share)
	}
	most := Timeline(s.Loop.Clock, (cycle-other)*s.rate()) - minMoving
	return max(min(Timeline(s.Loop.Clock, rest*s.rate()), most), 0)
}

// Plain says what it does.
func (ThereAndBackKeys) Plain() string { return "There and back again" }

// Suited is always.
func (ThereAndBackKeys) Suited(Past) bool { return true }

// Apart is none.
func (ThereAndBackKeys) Apart() []string { return nil }

// Becomes goes between the ends, and rests as long there.
func (ThereAndBackKeys) Becomes(p Past) []source.Row {
	row := p.ends()
	far, near := exact.Rat{}, exact.Rat{}
	switch m := p.Does.(type) {
	case Shuttle:
		far, near = m.Going().DwellFar, m.Going().DwellNear
	case Keyed:
		for _, k := range m.Listed() {
			switch {
			case k.Pos.Float() == p.To:
				far = k.Hold
			case k.Pos.Float() == p.From:
				near = k.Hold
			}
		}
	}
	rests := row
	for _, r := range []struct {
		key  string
		rest exact.Rat
	}{{"dwell-far", far}, {"dwell-near", near}} {
		if r.rest.Sign() > 0 {
			rests = append(rests[:len(rests):len(rests)], source.Pair{Key: r.key, Value: FramesText(p.frame(r.rest))})
		}
	}
	return []source.Row{rests, row}
}
