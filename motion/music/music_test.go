package music_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/music"
)

var film = exact.New(24000, 1001)

// read reads a table of music, and what is in song.csv beside it.
func read(toml, list string) (music.Music, *source.Report) {
	report := &source.Report{File: "shot.toml"}
	var raw struct {
		Music *music.Raw `toml:"music"`
	}
	source.Read([]byte("[music]\n"+toml), nil, &raw, report)
	return raw.Music.Build(report, "music.", film, func(name string) ([]byte, error) {
		if name != "song.csv" {
			return nil, errors.New("there is no file " + name)
		}
		return []byte(list), nil
	}), report
}

func named(m music.Music, text string) (music.Spot, string) {
	report := &source.Report{File: "shot.toml"}
	spot, ok := m.Place(report, source.Text{Text: text, Line: 7, Column: 3, Set: true}, "at")
	if !ok {
		return spot, report.Faults.Error()
	}
	return spot, ""
}

// A beat at 120 a minute lasts half a second: the tempo and the 500 000 us that a Standard
// MIDI File (MIDI 1.0, RP-001) begins with. At 128 it is 468.75 ms.
func TestBeatsAndBars(t *testing.T) {
	for _, c := range []struct{ toml, text, at string }{
		{"tempo = 120", "beat 1", "0"},
		{"tempo = 120", "beat 2", "1/2"},
		{"tempo = \"120 bpm\"\nfirst = \"0.24 s\"", "beat 9", "106/25"},
		{"tempo = \"128 per minute\"", "beat 2", "15/32"},
		{"tempo = \"128/min\"", "beat 2.5", "45/64"},
		{"tempo = 120\nfirst = \"24 frames\"", "beat 1", "1001/1000"},
		{"tempo = 120\nfirst = \"-0.25 s\"", "beat 2", "1/4"},
		{"tempo = 120\nbar = 4", "bar 3", "4"},
		{"tempo = 120\nbar = 3", "bar 2 beat 3", "5/2"},
		{"tempo = 120\nbar = 3", "bar 2 beat 3.5", "11/4"},
	} {
		m, report := read(c.toml, "")
		require.Empty(t, report.Faults, c.toml)
		spot, wrong := named(m, c.text)
		require.Empty(t, wrong)
		assert.Equal(t, c.at, spot.At.String(), "%s: %s", c.toml, c.text)
	}
}

// However many beats have gone, a frame is off by no more than half of one, and the error
// is that of the beat alone.
func TestNothingAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tempo := exact.New(rapid.Int64Range(1000, 999_999).Draw(t, "thousandths"), 1000)
		m, report := read(fmt.Sprintf("tempo = \"%s\"\nfirst = \"%d ms\"", tempo.Decimal(3), rapid.Int64Range(0, 5000).Draw(t, "first")), "")
		require.Empty(t, report.Faults)
		n := rapid.Int64Range(1, 20_000).Draw(t, "beat")
		at := m.First.Add(exact.New((n-1)*60, 1).Quo(tempo))
		if exact.Int(100_000).Less(at) {
			t.Skip("beyond a day")
		}
		spot, wrong := named(m, fmt.Sprintf("beat %d", n))
		require.Empty(t, wrong)
		assert.True(t, at.Equal(spot.At))
		assert.False(t, exact.New(1, 2).Less(spot.Frames().Abs()))
		assert.True(t, spot.Late().Add(spot.At).Mul(film).Equal(exact.Int(spot.Frame)))
	})
}

func TestLengths(t *testing.T) {
	m, _ := read("tempo = 128\nbar = 4", "")
	for text, seconds := range map[string]string{"16 beats": "15/2", "1 beat": "15/32", "4 bars": "15/2", "0.5 bar": "15/16"} {
		l, counts, ok := m.Length(&source.Report{}, source.Text{Text: text, Set: true}, "clock.loop")
		require.True(t, counts && ok, text)
		assert.Equal(t, seconds, l.Seconds.String(), text)
	}
	for _, text := range []string{"6 s", "144 frames", "beat 9", "bar 3", "", "beats", "sixteen long beats"} {
		_, counts, _ := m.Length(&source.Report{}, source.Text{Text: text, Set: true}, "clock.loop")
		assert.False(t, counts, text)
	}
	l, _, _ := m.Length(&source.Report{}, source.Text{Text: "16 beats", Set: true}, "clock.loop")
	exactly := l.Exact(180, film)
	assert.Equal(t, "128000/1001", exactly.String())
	again, _ := read(`tempo = "128000/1001"`, "")
	l, _, _ = again.Length(&source.Report{}, source.Text{Text: "16 beats", Set: true}, "clock.loop")
	assert.Equal(t, "180", l.Seconds.Mul(film).String(), "at that tempo the frames are whole")
}

func TestWhatIsNamedWrongly(t *testing.T) {
	const list = "splash,1\nturn,2\nlast,2\nlast of all,3\n"
	for _, c := range []struct{ toml, text, says string }{
		{"tempo = 120", "beat 0", "must name a beat from 1"},
		{"tempo = 120", "beat", "must name a beat from 1"},
		{"tempo = 120", "beat nine", "must name a beat from 1"},
		{"tempo = 120", "beat 1000001", "must name a beat from 1"},
		{"tempo = 1", "beat 1000000", "is later than 100000 s"},
		{"tempo = 120\nfirst = \"-1 s\"", "beat 2", "is 0.5 s before the first frame"},
		{"tempo = 120", "bar 2", "takes the beats of a bar; give it, such as bar = 4 under [music]"},
		{"tempo = 120\nbar = 4", "bar 2.5", "must name a whole bar"},
		{"tempo = 120\nbar = 4", "bar 2 beat 5", "must be within the 4 beats of its bar"},
		{"tempo = 120\nbar = 4", "bar 2 beat 0", "must name a beat of the bar from 1"},
		{"tempo = 120", "marker splash", "takes a list of markers"},
		{"markers = \"song.csv\"", "beat 2", "takes a tempo"},
		{"markers = \"song.csv\"", "marker", "must name a marker"},
		{"markers = \"song.csv\"", "marker splsh", `is not in song.csv; did you mean "marker splash"?`},
		{"markers = \"song.csv\"", "marker of no likeness", "song.csv has splash, turn, last, last of all"},
	} {
		m, report := read(c.toml, list)
		require.Empty(t, report.Faults, c.toml)
		_, wrong := named(m, c.text)
		assert.Contains(t, wrong, c.says, "%s: %s", c.toml, c.text)
		assert.Contains(t, wrong, "shot.toml:7:3: at")
	}
	m, _ := read("markers = \"song.csv\"\ntempo = 120\nbar = 4", list)
	for text, at := range map[string]string{"marker splash": "1", "marker last of all": "3", "beat 201": "100"} {
		spot, wrong := named(m, text)
		require.Empty(t, wrong)
		assert.Equal(t, at, spot.At.String())
	}
}

// Both sides of each bound of the table itself.
func TestTableOfMusic(t *testing.T) {
	for toml, says := range map[string]string{
		"tempo = 1":                          "",
		"tempo = 1000":                       "",
		"tempo = 0.999":                      "music.tempo \"0.999\" must be from 1 to 1000 beats a minute",
		"tempo = 1000.001":                   "must be from 1 to 1000",
		"tempo = \"fast\"":                   "must be from 1 to 1000",
		"tempo = 99\nbar = 64":               "",
		"tempo = 99\nbar = 65":               "must be from 1 to 64",
		"tempo = 99\nbar = 0":                "must be from 1 to 64",
		"bar = 4\nmarkers = \"song.csv\"":    "music.bar \"4\" takes a tempo",
		"first = \"1 s\"":                    "music.first \"1 s\" takes a tempo",
		"":                                   "music names no times",
		"tempo = 99\nfirst = \"2 mm\"":       "it must be a time",
		"markers = \"none.csv\"":             "shot.toml:2:11: music.markers \"none.csv\" cannot be read; there is no file none.csv",
		"markers = \"song.csv\"\ntempos = 3": "did you mean \"tempo\"?",
	} {
		_, report := read(toml, "splash,1\n")
		if says == "" {
			assert.Empty(t, report.Faults, toml)
		} else {
			assert.Contains(t, report.Faults.Error(), says, toml)
		}
	}
}

// What a list that is wrong would have said is not blamed on who names it.
func TestABrokenListIsBlamedOnce(t *testing.T) {
	m, report := read("markers = \"song.csv\"", "splash,one\n")
	assert.Contains(t, report.Faults.Error(), "song.csv:1:8: marker \"splash\" \"one\" must be a time")
	spot, wrong := named(m, "marker splash")
	assert.Empty(t, spot)
	assert.Empty(t, wrong)
	var none *music.Raw
	assert.False(t, none.Build(report, "music.", film, nil).Stated())
}
