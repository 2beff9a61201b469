// Package music places moments of a loop or a clip by the music: beats of a tempo, bars,
// and markers of a list, exactly, and on whole frames with what that costs.
package music

import (
	"fmt"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// Raw is the [music] table.
type Raw struct {
	Place   source.Place `toml:"-"`
	Tempo   source.Text  `toml:"tempo" jsonschema:"example=128 per minute" jsonschema_description:"Beats a minute, as the music is heard."`
	First   source.Text  `toml:"first" jsonschema:"example=0.24 s" jsonschema_description:"Where beat 1 is, on screen; left out, at the first frame."`
	Bar     source.Text  `toml:"bar" jsonschema:"example=4" jsonschema_description:"Beats of a bar, where bars are named."`
	Markers source.Text  `toml:"markers" jsonschema:"example=song.csv,example=cut.otio" jsonschema_description:"A list of named times, as seen from this file: a table of name and time (CSV), or a timeline with markers (OpenTimelineIO)."`
}

// Music is what times may be named by.
type Music struct {
	Tempo    exact.Rat // beats a minute; 0 where none is stated
	First    exact.Rat // s on screen of beat 1
	Bar      int64     // beats of a bar; 0 where none are stated
	List     string    // the file of Markers; "" for none
	Markers  []Marker
	Playback exact.Rat // frames a second that times go to whole frames of
	Told     []string  // what was made of the list that its author should know

	stated bool // the file has the table
	faulty bool // and something of it was not understood: what it lacks is not blamed
}

// Stated tells whether there is any.
func (m Music) Stated() bool { return m.stated }

// Marker is a name for a time.
type Marker struct {
	Name string
	At   exact.Rat // s on screen, from the first frame

	line, column int
}

var (
	// slowest and quickest tempo, in beats a minute: one a minute is a breath, and a
	// thousand is a tone rather than a beat.
	slowest, quickest = exact.Int(1), exact.Int(1000)
	minute            = exact.Int(60)
)

// maxBar is more beats than any bar is counted in.
const maxBar = 64

// Build reads the table that stands at path, with the list of markers that it names;
// nil is no table. Where the rate is not known, as the clock is at fault, it is 0.
func (raw *Raw) Build(report *source.Report, path string, playback exact.Rat, beside source.Beside) Music {
	m := Music{Playback: playback}
	if raw == nil {
		return m
	}
	m.stated = true
	before := report.Wrongs()
	if raw.Tempo.Set {
		m.Tempo = tempo(report, raw.Tempo, path+"tempo")
	}
	if raw.First.Set {
		if q, ok := report.Quantity(raw.First, path+"first", unit.Time, unit.Frames); ok {
			m.First = onScreen(q, playback)
		}
	} else if m.Tempo.Sign() > 0 {
		report.Default(path+"first", "0 s", "beat 1 is heard with the first frame")
	}
	if raw.Bar.Set {
		m.Bar, _ = report.Whole(raw.Bar, path+"bar", 1, maxBar)
	}
	for _, t := range []struct {
		source.Text
		key string
	}{{raw.First, "first"}, {raw.Bar, "bar"}} {
		if t.Set && !raw.Tempo.Set {
			report.Wrong(t.Text, path+t.key, "takes a tempo", `such as tempo = "128 per minute"`)
		}
	}
	if raw.Markers.Set {
		m.list(report, raw.Markers, path+"markers", beside)
	}
	if !raw.Tempo.Set && !raw.Markers.Set {
		report.Add(raw.Place, strings.TrimSuffix(path, "."), "", "names no times", `give it a tempo, such as tempo = "128 per minute", or a list, such as markers = "song.csv"`)
	}
	m.faulty = report.Wrongs() > before
	return m
}

// tempo reads "128 per minute", "128 bpm" or 128.
func tempo(report *source.Report, t source.Text, path string) exact.Rat {
	text := strings.TrimSpace(t.Text)
	for _, tail := range []string{"per minute", "bpm", "/min"} {
		text = strings.TrimSpace(strings.TrimSuffix(text, tail))
	}
	r, err := exact.Parse(text)
	if err != nil || r.Less(slowest) || quickest.Less(r) {
		report.Wrong(t, path, fmt.Sprintf("must be from %s to %s beats a minute", slowest, quickest), `such as "128 per minute"`)
		return exact.Rat{}
	}
	return r
}

// onScreen is a time or a count of frames in seconds on screen.
func onScreen(q unit.Quantity, playback exact.Rat) exact.Rat {
	if q.Dim == unit.Frames && playback.Sign() > 0 {
		return q.Value.Quo(playback)
	}
	return q.Value
}

// Beat is when a beat is heard, in seconds on screen: the first is 1, and between two
// are parts of one. Each is counted from the first, so that nothing adds up.
func (m Music) Beat(n exact.Rat) exact.Rat {
	return m.First.Add(n.Sub(exact.Int(1)).Mul(minute).Quo(m.Tempo))
}

// Spot is a named moment on its whole frame.
type Spot struct {
	Path  string    // the key that names it
	Text  string    // "beat 9"
	At    exact.Rat // s on screen, exactly
	Frame int64     // the nearest frame of the timeline
	Rate  exact.Rat // frames/s of the timeline
}

// Late is how much later its frame is than the moment, in seconds; below 0 earlier.
func (s Spot) Late() exact.Rat { return exact.Int(s.Frame).Quo(s.Rate).Sub(s.At) }

// Frames is Late in frames of the timeline: never beyond half a frame.
func (s Spot) Frames() exact.Rat { return s.Late().Mul(s.Rate) }

// Spot is a moment on the nearest frame.
func (m Music) Spot(path, text string, at exact.Rat) Spot {
	return Spot{path, text, at, at.Mul(m.Playback).Round().Whole(), m.Playback}
}

// Length is a number of beats as a length of time.
type Length struct {
	Text    string
	Beats   exact.Rat
	Seconds exact.Rat // on screen, exactly
}

// Exact is the tempo, in beats a minute, at which so many frames are that many beats.
func (l Length) Exact(frames int64, playback exact.Rat) exact.Rat {
	return l.Beats.Mul(minute).Mul(playback).Quo(exact.Int(frames))
}

// TempoText is a tempo for people, with the exact ratio where a decimal does not hold it.
func TempoText(tempo exact.Rat) string {
	text := tempo.Decimal(tempoPlaces)
	if back, err := exact.Parse(text); err != nil || !back.Equal(tempo) {
		text += " (" + tempo.String() + ")"
	}
	return text + " beats a minute"
}

// tempoPlaces tells two tempos apart that differ by a frame in an hour.
const tempoPlaces = 3

// names are those of all markers.
func (m Music) names() []string {
	var out []string
	for _, k := range m.Markers {
		out = append(out, k.Name)
	}
	return out
}

// few is how many names a fault lists.
const few = 8

// known says which markers there are.
func (m Music) known() string {
	names := m.names()
	if len(names) > few {
		return fmt.Sprintf("%s has %s", m.List, plain.Count(len(names), "marker"))
	}
	return m.List + " has " + strings.Join(names, ", ")
}

// labels reads timecode from nothing at the playback rate.
func labels(playback exact.Rat, text string) (exact.Rat, error) {
	tc, err := clock.NewTimecode(playback, strings.Contains(text, ";"))
	if err != nil {
		return exact.Rat{}, err
	}
	n, err := tc.Parse(text)
	return exact.Int(n).Quo(playback), err
}
