package move

import (
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/track"
)

// HoldKeys are the keys of a hold.
type HoldKeys struct {
	At source.Text `toml:"at" jsonschema:"example=12 deg" jsonschema_description:"hold: where it stays."`
}

// Name is the name of the move.
func (HoldKeys) Name() string { return "hold" }

// Told tells a hold from a place to be at.
func (k HoldKeys) Told() bool { return k.At.Set }

// Read reads the place.
func (k HoldKeys) Read(r *Reader) Move {
	at, _ := r.position(k.At, "at", "40 mm")
	return Hold{at}
}

// Example is a hold.
func (HoldKeys) Example() string { return "at = \"40 mm\"\n" }

// Hold stays where it is.
type Hold struct{ At unit.Quantity }

// What it can do.
var _ Stayer = Hold{}

// Kind is the name of the move.
func (Hold) Kind() string { return HoldKeys{}.Name() }

// Stays says that it does not move.
func (Hold) Stays() {}

// Track is at rest.
func (m Hold) Track(period exact.Rat) (*track.Track, error) {
	return track.Hold(period, m.At.Float())
}

// Words tells where it stays.
func (m Hold) Words(clock.Clock) string { return "stays at " + m.At.String() }

// Suits wants a place that the axis has.
func (m Hold) Suits(rotary bool) *fault.Fault { return suit(rotary, position{"at", m.At}) }

// Spots is the place.
func (m Hold) Spots() []Spot {
	return []Spot{{Name: "at", Key: "at", Means: "where it stays", At: m.At, Begins: true, Ends: true}}
}

// Grips is the place.
func (m Hold) Grips(Stage) []Grip { return []Grip{end("at", "where it stays", 0, m.At)} }

// Plain says what it does.
func (HoldKeys) Plain() string { return "Stays where it is" }

// Suited is always.
func (HoldKeys) Suited(Past) bool { return true }

// Apart is none.
func (HoldKeys) Apart() []string { return nil }

// Becomes stays where it was in the first frame.
func (HoldKeys) Becomes(p Past) []source.Row {
	return []source.Row{{{Key: "at", Value: p.place(p.Start)}}}
}
