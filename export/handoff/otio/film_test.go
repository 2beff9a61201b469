package otio_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/filmed"
	"seamrail/motion/edit/selects"
	"seamrail/motion/edit/timeline"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
)

// secondsOf is a timecode in seconds of media as OpenTimelineIO counts them: frames of its labels
// over the rate, the whole rate above it being that of the labels.
func secondsOf(hours, minutes, seconds, frames, nominal int64, rate exact.Rat) float64 {
	return float64(((hours*60+minutes)*60+seconds)*nominal+frames) / rate.Float()
}

// The format's own documentation of time ranges: what is there of a file that starts at 01:00:00:00
// begins there, and what is used of it is told in the same count, as are markers of the clip.
func TestAFilmBeginsAtItsTimecode(t *testing.T) {
	p := slow(t)
	hash := p.Hash()
	for _, c := range []struct {
		what   string
		rate   exact.Rat
		begins string
		from   float64 // s of media
		scalar float64
	}{
		{"at the capture rate", exact.New(120000, 1001), "01:00:00:000", secondsOf(1, 0, 0, 0, 120, exact.New(120000, 1001)), 0.2},
		{"conformed in the camera", exact.New(24000, 1001), "10:59:58:12", secondsOf(10, 59, 58, 12, 24, exact.New(24000, 1001)), 1},
		{"of a rate that is neither", exact.Int(24), "01:00:00:00", secondsOf(1, 0, 0, 0, 24, exact.Int(24)), 1000.0 / 1001},
		{"drop-frame", exact.New(30000, 1001), "02:00:00;00", 215784 / exact.New(30000, 1001).Float(), 0.8},
		{"no timecode", exact.New(24000, 1001), "", 0, 1},
		{"stills", exact.Rat{}, "", 0, 1},
	} {
		film := filmed.Film{
			File: "B.mov", Rate: c.rate, Timecode: c.begins, Frames: 600, Zero: 100.3, Sure: 0.02, By: filmed.ByPicture, Round: 1, In: 130, Out: 130 + p.Loop.Captured,
			Verdict: "THE PLAN",
		}
		out := text(t, p, selects.Filmed{Number: 2, Plan: hash, Rounds: 3, Clip: "B.mov", Film: &film})
		var v any
		require.NoError(t, json.Unmarshal([]byte(out), &v))
		check(t, published(t), v, map[string]int{})
		one := back(t, out).Tracks.Children[0].Children[0]
		media := one.Media[one.Key].Range
		require.InDelta(t, c.from, media.Start.seconds(), 1e-9, c.what)
		require.Equal(t, 600.0, media.Duration.Value, c.what)
		require.Equal(t, media.Start.Rate, one.Range.Start.Rate, c.what)
		require.Equal(t, media.Start.Value+130, one.Range.Start.Value, c.what)
		require.Equal(t, float64(p.Loop.Screen), one.Range.Duration.Value, c.what)
		scalar := 1.0
		if len(one.Effects) > 0 {
			scalar = one.Effects[0].Scalar
		}
		require.InDelta(t, c.scalar, scalar, 1e-12, c.what)
		// What a reader takes of the media is the loop, frame for frame, whatever rate it claims.
		if c.rate.Sign() > 0 || p.Loop.Clock.PerScreen().Equal(exact.Int(1)) {
			used := one.Range.Duration.seconds() * scalar * media.Start.Rate
			require.InDelta(t, float64(p.Loop.Captured), used, 1e-9, c.what)
		}
		require.Equal(t, "B.mov", one.Metadata.Seamrail["film"].(map[string]any)["file"])
		assert.Contains(t, out, `"name": "frame 0"`)
	}
}

// A film of which nobody knows frame 0 is named, and counted as one that nobody has looked through.
func TestAFilmWithoutFrame0(t *testing.T) {
	p := slow(t)
	f := selects.Filmed{Number: 2, Plan: p.Hash(), Rounds: 3, Clip: "B.mov"}
	without := text(t, p, f)
	f.Film = &filmed.Film{File: "B.mov", Rate: exact.Int(24), Timecode: "01:00:00:00", Frames: 600}
	require.Equal(t, without, text(t, p, f))
}

// filming gives each piece of a clip a film that holds all of its take, begun so many frames before.
func filming(t require.TestingT, text string, early int64, of func(n int) filmed.Film) timeline.Timeline {
	c := sample.Joined(t, text, sample.ClipFiles)
	footage := make([]timeline.Footage, len(c.Pieces))
	for i, p := range c.Pieces {
		up, down := p.Trajectory.RampFrames()
		all := p.Trajectory.RoundFrames()
		f := of(i)
		f.By, f.Zero, f.Round = filmed.ByPicture, float64(early+up), 1
		f.In = early + up + all
		f.Out, f.Frames = f.In+p.Trajectory.Captured(), early+up+3*all+down
		footage[i] = timeline.Footage{Take: 2, Rounds: 3, Clip: f.File, Film: &f}
	}
	tl, err := timeline.Of(c, footage)
	require.NoError(t, err)
	return tl
}

// A clip of films uses of each what it used of its take, so many frames later, at the film's own
// timecode and rate, and within what there is of it.
func TestAClipOfFilms(t *testing.T) {
	many.Check(t, 30, func(t *rapid.T) {
		sequence := sample.AnyClip(t)
		early := rapid.Int64Range(0, 300).Draw(t, "early")
		rate := rapid.SampledFrom([]exact.Rat{exact.Int(24), exact.New(24000, 1001), exact.Int(120)}).Draw(t, "rate")
		tl := filming(t, sequence, early, func(n int) filmed.Film {
			return filmed.Film{File: "A00" + string(rune('1'+n%9)) + ".mov", Rate: rate, Timecode: "01:00:00:00"}
		})
		plain := filming(t, sequence, early, func(int) filmed.Film { return filmed.Film{} })
		for i := range plain.Events {
			plain.Events[i].Film = nil
		}
		var r readClip
		require.NoError(t, json.Unmarshal([]byte(clipText(t, tl, "")), &r))
		n := 0
		for _, c := range r.Tracks.Children[0].Children {
			if c.Schema == "Transition.1" {
				continue
			}
			e := tl.Events[n]
			media := c.Media["DEFAULT_MEDIA"]
			start := float64(3600 * rate.Ceil().Whole())
			require.Equal(t, rational{rate.Float(), start}, media.Range.Start)
			require.InDelta(t, start+e.First.Float(), c.Range.Start.Value, 1e-6)
			scalar := 1.0
			if len(c.Effects) > 0 {
				scalar = c.Effects[0].Scalar
			}
			used := c.Range.Duration.Value / c.Range.Duration.Rate * scalar * rate.Float()
			require.InDelta(t, e.Used.Float(), used, 1e-6, "frame for frame")
			require.GreaterOrEqual(t, c.Range.Start.Value, start)
			require.LessOrEqual(t, c.Range.Start.Value+used, start+media.Range.Duration.Value+1e-6)
			require.Zero(t, e.Lacks())
			n++
		}
		require.Len(t, tl.Events, n)
	})
}
