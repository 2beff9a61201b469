package move

import (
	"fmt"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/track"
)

// BobKeys are the keys of a bob.
type BobKeys struct {
	Rest source.Text `toml:"rest" jsonschema:"example=70 mm" jsonschema_description:"bob: the middle, through which it goes."`
	By   source.Text `toml:"by" jsonschema:"example=6 mm" jsonschema_description:"bob: how far it goes to either side."`
}

// Name is the name of the move.
func (BobKeys) Name() string { return "bob" }

// Told tells it from its middle.
func (k BobKeys) Told() bool { return k.Rest.Set }

// Read reads the middle and how far.
func (k BobKeys) Read(r *Reader) Move {
	var m Bob
	m.Rest, _ = r.position(k.Rest, "rest", "70 mm")
	m.By, _ = r.position(k.By, "by", "6 mm")
	return m
}

// Example is a bob.
func (BobKeys) Example() string { return "rest = \"70 mm\"\nby = \"6 mm\"\n" }

// Bob goes once to and fro about a place.
type Bob struct{ Rest, By unit.Quantity }

// Kind is the name of the move.
func (Bob) Kind() string { return BobKeys{}.Name() }

// Track is one sine.
func (m Bob) Track(period exact.Rat) (*track.Track, error) {
	return track.Swing(period, track.SwingSpec{About: m.Rest.Float(), Amplitude: m.By.Float(), Cycles: 1})
}

// Words tells the middle and how far.
func (m Bob) Words(clock.Clock) string { return fmt.Sprintf("bobs about %s by %s", m.Rest, m.By) }

// Suits wants places that the axis has.
func (m Bob) Suits(rotary bool) *fault.Fault {
	return suit(rotary, position{"rest", m.Rest}, position{"by", m.By})
}

// Spots is the middle.
func (m Bob) Spots() []Spot {
	return []Spot{{Name: "rest", Key: "rest", Means: "the middle", At: m.Rest, Begins: true}}
}

// Grips is the middle, where frame 0 finds it.
func (m Bob) Grips(Stage) []Grip { return []Grip{end("rest", "middle", 0, m.Rest)} }
