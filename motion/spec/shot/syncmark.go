package shot

import (
	"cmp"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// RawSyncMark is the [sync-mark] table.
type RawSyncMark struct {
	Place    source.Place `toml:"-"`
	With     source.Text  `toml:"with" jsonschema:"required,example=lamp,example=twitch,example=click,example=hand" jsonschema_description:"What makes the mark: the name of an output of the rig; twitch, an axis out and back; click, the sharp tone of the click track alone; hand, a hand at that tone."`
	Length   source.Text  `toml:"length" jsonschema:"example=0.2 s,example=24 frames" jsonschema_description:"How long the output is on, or the axis stays out: real time, or captured frames."`
	Before   source.Text  `toml:"before" jsonschema:"example=2 s" jsonschema_description:"From the beginning of the mark to the beginning of the run-up: real time, or captured frames."`
	After    source.Text  `toml:"after" jsonschema:"example=1 s" jsonschema_description:"From the end of the run-out to a second mark, or none: real time, or captured frames."`
	Axis     source.Text  `toml:"axis" jsonschema:"example=rail" jsonschema_description:"The axis that twitches; left out, the first that moves."`
	Distance source.Text  `toml:"distance" jsonschema:"example=1 mm,example=-0.5 deg" jsonschema_description:"How far it goes out and back; below 0 the other way. Left out, as far as the picture shows it well."`
}

// What makes a mark where no output does.
const (
	MarkTwitch = "twitch"
	MarkClick  = "click"
	MarkHand   = "hand"
)

// SyncMark is how the rig tells the camera when it is.
type SyncMark struct {
	With                  string    // an output of the rig, or MarkTwitch, MarkClick, MarkHand
	Length, Before, After exact.Rat // real s; After is 0 where there is no second mark
	LengthSet             bool      // the file says how long
	Axis                  string    // that twitches; "" for the first that moves
	Distance              exact.Rat // in Dim, 0 where the file leaves it out
	Dim                   unit.Dimension
	Faulty                bool

	line, column int
	said         map[string]source.Text
}

// Fault is something wrong with a key of the mark that only the plan shows. Where the key
// was left out, the table itself is the place.
func (m SyncMark) Fault(file, key, bound, fit string) fault.Fault {
	f := fault.Fault{File: file, Line: m.line, Column: m.column, Quantity: "sync-mark." + key, Bound: bound, Fit: fit}
	if t := m.said[key]; t.Set {
		f.File, f.Line, f.Column, f.Value = cmp.Or(t.File, file), t.Line, t.Column, t.Quoted()
	}
	return f
}

// Bounds of a mark, real s. Less than a fiftieth shows in no frame of film; who waits for
// more than a minute has other means.
var (
	minMark, maxMark = exact.New(1, 50), exact.Int(10)
	minGap, maxGap   = exact.New(1, 5), exact.Int(60)
	// maxTwitch, mm or degrees, is a move of its own.
	maxTwitch = exact.Int(20)
)

// usualMark are a flash that is seen and heard, two seconds to rest before it moves, and
// a second of rest after it.
var usualMark = struct{ length, before, after exact.Rat }{exact.New(1, 5), exact.Int(2), exact.Int(1)}

// syncMark reads the table, nil where there is none.
func (raw Raw) syncMark(report *source.Report, t timing) *SyncMark {
	if raw.SyncMark == nil {
		return nil
	}
	r := markReader{report, *raw.SyncMark, t}
	before := report.Wrongs()
	m := r.build()
	m.Faulty = report.Wrongs() > before
	return &m
}

// markReader understands a mark.
type markReader struct {
	*source.Report
	raw  RawSyncMark
	time timing
}

const markPath = "sync-mark."

func (r markReader) build() SyncMark {
	raw := r.raw
	m := SyncMark{
		With: raw.With.Text, LengthSet: raw.Length.Set, Axis: raw.Axis.Text, line: raw.Place.Line, column: raw.Place.Column,
		said: map[string]source.Text{"with": raw.With, "length": raw.Length, "before": raw.Before, "after": raw.After, "axis": raw.Axis, "distance": raw.Distance},
	}
	if m.With == "" {
		r.Missing(raw.Place, markPath+"with", `"lamp", an output of the rig, or "twitch"`)
	}
	m.Length = r.real(raw.Length, "length", minMark, maxMark, usualMark.length, "long enough to be seen")
	m.Before = r.real(raw.Before, "before", minGap, maxGap, usualMark.before, "time to be at rest again")
	if raw.After.Text != "none" {
		m.After = r.real(raw.After, "after", minGap, maxGap, usualMark.after, "two marks tell how the clocks differ")
	}
	if m.With == MarkTwitch {
		r.distance(&m)
		return m
	}
	for key, t := range map[string]source.Text{"axis": raw.Axis, "distance": raw.Distance} {
		if t.Set && m.With != "" {
			r.Wrong(t, markPath+key, "is of use to a twitch alone", `with = "twitch"`)
		}
	}
	return m
}

// real reads a time outside the loop: in real seconds, or in captured frames.
func (r markReader) real(t source.Text, key string, low, high, usual exact.Rat, why string) exact.Rat {
	if !t.Set {
		r.Default(markPath+key, usual.Decimal(1)+" s", why)
		return usual
	}
	q, ok := r.Quantity(t, markPath+key, unit.Time, unit.Frames)
	if !ok {
		return usual
	}
	v := q.Value
	if q.Dim == unit.Frames {
		if !r.time.Known {
			return usual
		}
		v = v.Quo(r.time.Clock.Capture)
	}
	if v.Less(low) || high.Less(v) {
		r.Wrong(t, markPath+key, "must be from "+low.Decimal(2)+" s to "+high.String()+" s of real time", "")
		return usual
	}
	return v
}

// distance reads how far an axis twitches.
func (r markReader) distance(m *SyncMark) {
	t := r.raw.Distance
	if !t.Set {
		return
	}
	q, ok := r.Quantity(t, markPath+"distance", unit.Length, unit.Angle)
	if !ok {
		return
	}
	if q.Value.Sign() == 0 || maxTwitch.Less(q.Value.Abs()) {
		r.Wrong(t, markPath+"distance", "must be other than 0 and at most 20 mm or degrees either way", "")
		return
	}
	m.Distance, m.Dim = q.Value, q.Dim
}
