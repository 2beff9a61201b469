package move

import (
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/track"
)

// ArcKeys are the keys of an arc: those of a move there and back, and the point.
type ArcKeys struct {
	Point source.Texts `toml:"point" jsonschema:"-"`
	ArcWayKeys
}

// ArcWayKeys are the keys that an arc has in common with a move there and back.
type ArcWayKeys struct {
	From         source.Text `toml:"from" jsonschema:"-" jsonschema_description:"arc: a heading of the point, in degrees."`
	To           source.Text `toml:"to" jsonschema:"-" jsonschema_description:"arc: the other heading."`
	Law          source.Text `toml:"law" jsonschema:"-"`
	BackLaw      source.Text `toml:"back-law" jsonschema:"-"`
	Ramp         source.Text `toml:"ramp" jsonschema:"-"`
	JerkShare    source.Text `toml:"jerk-share" jsonschema:"-"`
	Least        source.Text `toml:"least" jsonschema:"-"`
	Swings       source.Text `toml:"swings" jsonschema:"-"`
	SwingDamping source.Text `toml:"swing-damping" jsonschema:"-"`
	Cycles       source.Text `toml:"cycles" jsonschema:"-"`
	OutShare     source.Text `toml:"out-share" jsonschema:"-"`
	DwellFar     source.Text `toml:"dwell-far" jsonschema:"-"`
	DwellNear    source.Text `toml:"dwell-near" jsonschema:"-"`
	Phase        source.Text `toml:"phase" jsonschema:"-"`
}

// Name is the name of the move.
func (ArcKeys) Name() string { return "arc" }

// Told is never: its keys are those of others.
func (ArcKeys) Told() bool { return false }

// Read reads a there-and-back whose ends are headings of a point.
func (k ArcKeys) Read(r *Reader) Move {
	m := Arc{Point: r.point(k.Point)}
	m.ways = ThereAndBackKeys(k.ArcWayKeys).read(r)
	for _, end := range []struct {
		key  string
		text source.Text
		q    unit.Quantity
	}{{"from", k.From, m.ways.From}, {"to", k.To, m.ways.To}} {
		if end.text.Set && end.q.Dim != unit.Angle {
			r.Wrong(end.text, r.Path+end.key, "must be an angle, the heading of the point from the rail", `such as "-20 deg"`)
		} else if exact.Int(track.Steepest).Less(end.q.Value.Abs()) {
			r.Wrong(end.text, r.Path+end.key, fmt.Sprintf("must be from -%d deg to %d deg: a straight rail goes round no further", track.Steepest, track.Steepest), "")
		}
	}
	return m
}

// Example is an arc.
func (ArcKeys) Example() string {
	return "move = \"arc\"\npoint = [\"80 mm\", \"400 mm\"]\nfrom = \"-3 deg\"\nto = \"3 deg\"\n"
}

// Arc goes along a rail such that a point is seen from one heading, then another, and
// back.
type Arc struct {
	Point Point
	ways  Ways // in degrees of heading
}

// What it can do.
var (
	_ UnderLaw = Arc{}
	_ Timed    = Arc{}
)

// Kind is the name of the move.
func (Arc) Kind() string { return ArcKeys{}.Name() }

// Track goes round the point.
func (m Arc) Track(period exact.Rat) (*track.Track, error) {
	return track.Arc(period, m.Point.Sight(), m.ways.spec())
}

// Words tells the point and the headings.
func (m Arc) Words(c clock.Clock) string {
	return fmt.Sprintf("round a point at %s, %s away, the heading %s", m.Point[0], m.Point[1], m.ways.words(c))
}

// Suits wants a rail.
func (Arc) Suits(rotary bool) *fault.Fault {
	if !rotary {
		return nil
	}
	return &fault.Fault{Quantity: "move", Value: `"arc"`, Bound: "must be on a linear axis, the rail, and this one is rotary",
		Fit: `a pan beside it with move = "aim" keeps the point centred`}
}

// Spots is where the point is straight ahead: its ends are headings, and no places.
func (m Arc) Spots() []Spot { return []Spot{m.Point.ahead("")} }

// Grips has none: its ends are no places of the axis.
func (Arc) Grips(Stage) []Grip { return nil }

// Laws are those of the way out and back.
func (m Arc) Laws() (out, back law.Law) { return m.ways.Out, m.ways.Back }

// Retimed has dwells so many times as long.
func (m Arc) Retimed(times exact.Rat) Move {
	m.ways = m.ways.Retimed(times)
	return m
}

// Plain says what it does.
func (ArcKeys) Plain() string { return "Round a point" }

// Suited wants a rail.
func (ArcKeys) Suited(p Past) bool { return p.Driven && !p.Rotary }

// Apart has the ends, which are headings, and the point.
func (ArcKeys) Apart() []string { return []string{"from", "to", "point"} }

// Becomes goes round a point before the middle of its way, as far away as the product.
func (ArcKeys) Becomes(p Past) []source.Row {
	middle, away := math.Round((p.From+p.To)/2), math.Round(p.Away)
	heading := func(at float64) string {
		h := math.Atan2(at-middle, away) * 180 / math.Pi
		return Place(math.Min(math.Max(h, -track.Steepest), track.Steepest), DragGrain, unit.Angle)
	}
	from, to := heading(p.From), heading(p.To)
	if from == to {
		from, to = heading(middle-firstWay/2), heading(middle+firstWay/2)
	}
	return []source.Row{{
		{Key: "point", Value: []string{unit.Format(middle, unit.Length), unit.Format(away, unit.Length)}},
		{Key: "from", Value: from}, {Key: "to", Value: to},
	}}
}
