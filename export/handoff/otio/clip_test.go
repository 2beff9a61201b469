package otio_test

import (
	"bytes"
	"encoding/json"
	"io"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/handoff/otio"
	"seamrail/motion/edit/timeline"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/sample/many"
)

func laid(t require.TestingT, text string) timeline.Timeline {
	c := sample.Joined(t, text, sample.ClipFiles)
	footage := make([]timeline.Footage, len(c.Pieces))
	for i := range footage {
		footage[i] = timeline.Footage{Take: 2 * (i % 2), Rounds: 3, Notes: []string{"steam <just> right"}}
	}
	tl, err := timeline.Of(c, footage)
	require.NoError(t, err)
	return tl
}

func clipText(t require.TestingT, tl timeline.Timeline, sound string) string {
	var b bytes.Buffer
	require.NoError(t, otio.WriteClip(&b, tl, sound))
	return b.String()
}

// child is a clip or a transition of a track, as a reader of the format has it.
type child struct {
	Schema  string `json:"OTIO_SCHEMA"`
	Name    string
	Range   span `json:"source_range"`
	Effects []struct {
		Scalar float64 `json:"time_scalar"`
	}
	Media map[string]struct {
		Name  string
		Range span `json:"available_range"`
	} `json:"media_references"`
	In  rational `json:"in_offset"`
	Out rational `json:"out_offset"`
}

type readClip struct {
	Start  rational `json:"global_start_time"`
	Tracks struct {
		Children []struct {
			Kind     string
			Children []child
			Markers  []struct {
				Range span `json:"marked_range"`
			}
		}
	}
}

const clipLines = "sequence = \"Fernhollow lantern\"\ntimecode = \"01:00:00:00\"\n"

var wholeClip = clipLines +
	sample.Entry("a.toml", `from = "6 frames"`, `length = "30 frames"`) +
	sample.Entry("b.toml", `from = "10 frames"`, `length = "70 frames"`, `dissolve = "8 frames"`) +
	sample.Entry("half.toml", `from = "1 frames"`, `length = "31 frames"`, `dissolve = "6 frames"`)

func TestClipGolden(t *testing.T) {
	tl := laid(t, wholeClip)
	sample.Golden(t, "clip.otio", clipText(t, tl, "cues.wav"))
	var v any
	require.NoError(t, json.Unmarshal([]byte(clipText(t, tl, "cues.wav")), &v))
	met := map[string]int{}
	check(t, published(t), v, met)
	require.Equal(t, 3, met["Transition.1"])
	require.Equal(t, 1, met["ExternalReference.1"])
	require.Equal(t, 2, met["Track.1"])
	require.Equal(t, len(tl.Events)+1, met["Clip.2"])
	require.Equal(t, len(tl.Marks), met["Marker.2"])
}

// As a reader of the format goes through the track, clip by clip, each stands where the
// clip has it, uses of its recording what it is shown of it, and has within that what the
// transitions beside it reach for.
func TestClipReadBack(t *testing.T) {
	many.Check(t, 40, func(t *rapid.T) {
		clipHolds(t, laid(t, sample.AnyClip(t)))
	})
}

func clipHolds(t require.TestingT, tl timeline.Timeline) {
	var r readClip
	require.NoError(t, json.Unmarshal([]byte(clipText(t, tl, "")), &r))
	require.Len(t, r.Tracks.Children, 1)
	require.Equal(t, float64(tl.Clip.Start), r.Start.Value)
	children := r.Tracks.Children[0].Children
	at, n := 0.0, 0
	for i, c := range children {
		if c.Schema == "Transition.1" {
			require.NotEqual(t, "Transition.1", children[i-1].Schema)
			require.NotEqual(t, "Transition.1", children[i+1].Schema)
			continue
		}
		e := tl.Events[n]
		k := tl.Piece(e).Shot.Clock
		require.Equal(t, float64(e.Start), at)
		require.Equal(t, rational{k.Playback.Float(), float64(e.Frames)}, c.Range.Duration)
		at += c.Range.Duration.Value
		scalar := 1.0
		if len(c.Effects) > 0 {
			scalar = c.Effects[0].Scalar
		}
		require.Equal(t, k.Retime.Float(), scalar)
		capture := k.Capture.Float()
		require.Equal(t, rational{capture, e.First.Float()}, c.Range.Start)
		require.InDelta(t, e.Used.Float(), c.Range.Duration.seconds()*scalar*capture, 1e-9)
		require.Equal(t, e.Reel, c.Media["DEFAULT_MEDIA"].Name)
		early, late := 0.0, 0.0
		if i > 0 && children[i-1].Schema == "Transition.1" {
			early = children[i-1].In.seconds() * scalar * capture
		}
		if i+1 < len(children) && children[i+1].Schema == "Transition.1" {
			late = children[i+1].Out.seconds() * scalar * capture
		}
		require.GreaterOrEqual(t, c.Range.Start.Value-early, -1e-9)
		require.LessOrEqual(t, c.Range.Start.Value+e.Used.Float()+late, c.Media["DEFAULT_MEDIA"].Range.Duration.Value+1e-9)
		n++
	}
	require.Equal(t, len(tl.Events), n)
	require.Equal(t, float64(tl.Clip.Frames), at)
}

func TestClipWriterFails(t *testing.T) {
	tl := laid(t, wholeClip)
	sample.Fails(t, len(clipText(t, tl, "cues.wav")), func(w io.Writer) error { return otio.WriteClip(w, tl, "cues.wav") })
}
