package move

import (
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/track"
)

// SwingKeys are the keys of a swing.
type SwingKeys struct {
	About     source.Text `toml:"about" jsonschema:"example=70 mm" jsonschema_description:"swing: the middle, about which it goes to and fro."`
	Amplitude source.Text `toml:"amplitude" jsonschema:"example=20 mm" jsonschema_description:"swing: how far it goes to either side, at most."`
	Cycles    source.Text `toml:"cycles" jsonschema:"-" jsonschema_description:"swing: times to and fro in a loop."`
	Decay     source.Text `toml:"decay" jsonschema:"example=1/2" jsonschema_description:"swing: share of the amplitude that dies away and comes back in each loop; 0 is a plain sine."`
	Phase     source.Text `toml:"phase" jsonschema:"-" jsonschema_description:"swing: the same."`
}

// Name is the name of the move.
func (SwingKeys) Name() string { return "swing" }

// Told tells it from its middle or its amplitude.
func (k SwingKeys) Told() bool { return k.About.Set || k.Amplitude.Set }

// Read reads the middle, how far, how often, and what dies away.
func (k SwingKeys) Read(r *Reader) Move {
	var m Swing
	about, ok := r.position(k.About, "about", "70 mm")
	amplitude, ok2 := r.position(k.Amplitude, "amplitude", "20 mm")
	m.About, m.Amplitude = about, amplitude
	switch {
	case !ok || !ok2:
	case about.Dim != amplitude.Dim:
		r.Wrong(k.Amplitude, r.Path+"amplitude", "must be "+about.Dim.String()+", as about is", "")
	case amplitude.Value.Sign() <= 0:
		r.Wrong(k.Amplitude, r.Path+"amplitude", "must be above 0", `to stay put, use move = "hold"; to set out the other way, a phase`)
	}
	m.Cycles = r.cycles(k.Cycles, "once to and fro")
	most := track.MostDecay(m.Cycles)
	fits := func(s exact.Rat) bool { return s.Sign() >= 0 && s.Less(most) }
	m.Decay = r.share(k.Decay, "decay", exact.Rat{}, "it swings as far all the time", fits,
		fmt.Sprintf("from 0 to below %s, with %s a loop", most, plain.Count(int64(m.Cycles), "cycle")))
	m.Phase = r.share(k.Phase, "phase", exact.Rat{}, "the first frame finds it in the middle, on its way up", wrapped, "from 0 to below 1")
	return m
}

// Example is a swing that decays.
func (SwingKeys) Example() string {
	return "about = \"70 mm\"\namplitude = \"6 mm\"\ncycles = 3\ndecay = \"1/2\"\n"
}

// Swing goes to and fro about a place, as a pendulum does: a sine, which may die away
// and come back once a loop.
type Swing struct {
	About, Amplitude unit.Quantity
	Cycles           int       // times to and fro in a loop, at least 1
	Decay            exact.Rat // share of the amplitude that is gone half a loop later
	Phase            exact.Rat // share of the loop, in [0, 1), that frame 0 is into it
}

// What it can do.
var (
	_ Ended    = Swing{}
	_ Ranging  = Swing{}
	_ Shrinker = Swing{}
	_ Shifter  = Swing{}
)

// Kind is the name of the move.
func (Swing) Kind() string { return SwingKeys{}.Name() }

// Track is a sine with its sidebands.
func (m Swing) Track(period exact.Rat) (*track.Track, error) {
	return track.Swing(period, track.SwingSpec{
		About: m.About.Float(), Amplitude: m.Amplitude.Float(), Cycles: m.Cycles, Decay: m.Decay, Phase: m.Phase,
	})
}

// Words tells the middle, how far, how often, and what dies away.
func (m Swing) Words(clock.Clock) string {
	words := fmt.Sprintf("swings about %s by %s to either side, %s", m.About, m.Amplitude, times(m.Cycles))
	if m.Decay.Sign() != 0 {
		words += fmt.Sprintf("; %s of that dies away and comes back in each loop", m.Decay)
	}
	return words + phaseWords(m.Phase)
}

// Suits wants a place that the axis has.
func (m Swing) Suits(rotary bool) *fault.Fault {
	return suit(rotary, position{"about", m.About}, position{"amplitude", m.Amplitude})
}

// Spots are the middle, and either end: how far that is from the middle.
func (m Swing) Spots() []Spot {
	about, far := m.About.Float(), m.About
	far.Value = far.Value.Add(m.Amplitude.Value)
	return []Spot{
		{Name: "about", Key: "about", Means: "the middle of the swing", At: m.About, Begins: true},
		{Name: "reach", Key: "amplitude", Means: "as far as it swings, from the middle that the file has", At: far, Ends: true, Reach: &about},
	}
}

// Ends are as far as the amplitude goes.
func (m Swing) Ends() (near, far unit.Quantity) {
	near, far = m.About, m.About
	near.Value, far.Value = m.About.Value.Sub(m.Amplitude.Value), m.About.Value.Add(m.Amplitude.Value)
	return near, far
}

// Visits is how often it goes to and fro.
func (m Swing) Visits() int { return m.Cycles }

// Stays are the crests of the sine; where it decays only the track knows them.
func (m Swing) Stays(loop exact.Rat, near bool) ([]Stay, bool) {
	if m.Decay.Sign() != 0 {
		return nil, false
	}
	quarter := int64(1)
	if near {
		quarter = 3
	}
	stays := make([]Stay, m.Cycles)
	for i := range stays {
		share := exact.New(4*int64(i)+quarter, 4*int64(m.Cycles)).Sub(m.Phase).Frac()
		stays[i] = Stay{share.Mul(loop), share.Mul(loop)}
	}
	return stays, true
}

// Grips are the middle, and how far it goes the first time.
func (m Swing) Grips(s Stage) []Grip {
	period := s.Loop.Real()
	at := func(share exact.Rat) float64 { return s.within(share.Sub(m.Phase).Mul(period).Float()) }
	first := exact.New(1, 4*int64(m.Cycles))
	left := 1 - m.Decay.Float()*(1-math.Cos(2*math.Pi*first.Float()))/2
	about := m.About.Float()
	return []Grip{
		end("about", "middle", at(exact.Rat{}), m.About),
		{"amplitude", EndGrip, VaryPos, "far end", at(first), about + left*m.Amplitude.Float(), func(p Pull) []Edit {
			return []Edit{m.reaching(math.Abs(p.Pos-about) / left)}
		}},
	}
}

// reaching is an amplitude as the file has it, and never none.
func (m Swing) reaching(amplitude float64) Edit {
	return Edit{"amplitude", Place(math.Max(amplitude, DragGrain), DragGrain, m.Amplitude.Dim)}
}

// Range are both ends: where one is put elsewhere, middle and amplitude give way.
func (m Swing) Range() [2]End {
	near, far := m.Ends()
	one := func(name string, here, other unit.Quantity) End {
		return End{name, []string{"about", "amplitude"}, here.Float(), func(pos float64) []Edit {
			middle := (pos + other.Float()) / 2
			return []Edit{{"about", Place(middle, DragGrain, m.About.Dim)}, m.reaching(math.Abs(pos - middle))}
		}}
	}
	return [2]End{one("near end", near, far), one("far end", far, near)}
}

// Shrunk swings less far, and no further than there is room.
func (m Swing) Shrunk(share, low, high float64, _ clock.Clock) []Change {
	about := m.About.Float()
	most := math.Min(share*m.Amplitude.Float(), math.Min(about-low, high-about))
	var out []Change
	for _, share := range shorter {
		amplitude := math.Floor(share*most/DragGrain) * DragGrain
		if amplitude < DragGrain {
			break
		}
		less, edit := m, m.reaching(amplitude)
		less.Amplitude = asWritten(edit.Text, m.Amplitude.Dim)
		out = append(out, Change{less, []Edit{edit}, fmt.Sprintf("amplitude = %q in this loop", edit.Text)})
	}
	return out
}

// Shifted swings about another place.
func (m Swing) Shifted(by float64) Change {
	text := Place(m.About.Float()+by, placeGrain, m.About.Dim)
	m.About = asWritten(text, m.About.Dim)
	return Change{m, []Edit{{"about", text}}, fmt.Sprintf("about = %q", text)}
}

// Plain says what it does.
func (SwingKeys) Plain() string { return "To and fro like a pendulum" }

// Suited wants a rig that is driven.
func (SwingKeys) Suited(p Past) bool { return p.Driven }

// Apart has the phase: a swing begins in its middle.
func (SwingKeys) Apart() []string { return []string{"phase"} }

// Becomes swings between the ends, and is at the same one in the first frame.
func (SwingKeys) Becomes(p Past) []source.Row {
	quarter := int64(3)
	if p.From > p.To {
		quarter = 1
	}
	row := source.Row{
		{Key: "about", Value: p.place((p.From + p.To) / 2)},
		{Key: "amplitude", Value: Place(math.Max(math.Abs(p.To-p.From)/2, DragGrain), DragGrain, p.Dim())},
		{Key: "phase", Value: exact.New(quarter, 4*int64(p.Cycles)).String()},
	}
	plainest := row[:2:2]
	if p.Cycles > 1 {
		row = append(row, source.Pair{Key: "cycles", Value: fmt.Sprint(p.Cycles)})
	}
	return []source.Row{row, plainest}
}
