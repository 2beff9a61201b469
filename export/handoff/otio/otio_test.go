package otio_test

import (
	"bufio"
	"encoding/json"
	"io"
	"math/big"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seamrail/export/handoff/otio"
	"seamrail/export/header"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
	"seamrail/motion/verify"
)

// slow is the sample filmed at 119.88 and played at 23.976, 24 timeline frames.
func slow(t *testing.T) *plan.Plan {
	p := *sample.With(t, rig.InverseTime).Plan()
	c, err := clock.New(exact.New(120000, 1001), exact.New(24000, 1001), exact.Rat{})
	require.NoError(t, err)
	p.Loop, err = c.LoopFrames(24)
	require.NoError(t, err)
	return &p
}

func text(t *testing.T, p *plan.Plan, filmed ...selects.Filmed) string {
	return sample.Text(t, trajectory.New(p), func(w io.Writer, v verify.Verdict) error {
		return otio.Write(w, header.Of(p, v), selects.Of(p, filmed))
	})
}

// published are the format's schemas and their fields.
func published(t *testing.T) map[string][]string {
	file, err := os.Open("../../../testdata/reference/otio_schemas.tsv")
	require.NoError(t, err)
	defer func() { _ = file.Close() }()
	out := map[string][]string{}
	for s := bufio.NewScanner(file); s.Scan(); {
		name, fields, _ := strings.Cut(s.Text(), "\t")
		out[name] = strings.Fields(fields)
	}
	return out
}

// check holds every object against the published fields, none more and none
// less, and counts the schemas.
func check(t *testing.T, known map[string][]string, v any, met map[string]int) {
	t.Helper()
	switch v := v.(type) {
	case []any:
		for _, one := range v {
			check(t, known, one, met)
		}
	case map[string]any:
		if name, ok := v["OTIO_SCHEMA"].(string); ok {
			var fields []string
			for key := range v {
				if key != "OTIO_SCHEMA" {
					fields = append(fields, key)
				}
			}
			slices.Sort(fields)
			require.Equal(t, known[name], fields, name)
			met[name]++
		}
		for key, one := range v {
			if key != "metadata" {
				check(t, known, one, met)
			}
		}
	}
}

func TestFieldsAreThePublishedOnes(t *testing.T) {
	p := slow(t)
	var v any
	require.NoError(t, json.Unmarshal([]byte(text(t, p, selects.Filmed{Number: 1, Plan: p.Hash(), Rounds: 3})), &v))
	met := map[string]int{}
	check(t, published(t), v, met)
	require.Equal(t, map[string]int{
		"Timeline.1": 1, "Stack.1": 1, "Track.1": 1, "Clip.2": 1, "MissingReference.1": 1, "LinearTimeWarp.1": 1, "Marker.2": 1,
		"TimeRange.1": 3, "RationalTime.1": 7,
	}, met)
}

// Media whose file is known is a reference to it, escaped by RFC 3986; a card and
// a clip number are the name of media that is missing.
func TestTheCamerasFileIsTheMedia(t *testing.T) {
	p := slow(t)
	media := func(clip string) map[string]any {
		var v struct {
			Tracks struct {
				Children []struct {
					Children []struct {
						Media map[string]map[string]any `json:"media_references"`
					}
				}
			}
		}
		out := text(t, p, selects.Filmed{Number: 1, Plan: p.Hash(), Rounds: 3, Clip: clip})
		require.NoError(t, json.Unmarshal([]byte(out), &v))
		var any any
		require.NoError(t, json.Unmarshal([]byte(out), &any))
		check(t, published(t), any, map[string]int{})
		return v.Tracks.Children[0].Children[0].Media["DEFAULT_MEDIA"]
	}
	m := media("läng 4 #2~.mov")
	require.Equal(t, []any{"ExternalReference.1", "läng 4 #2~.mov", "l%C3%A4ng%204%20%232~.mov"}, []any{m["OTIO_SCHEMA"], m["name"], m["target_url"]})
	m = media("A001 C004")
	require.Equal(t, []any{"MissingReference.1", "A001 C004"}, []any{m["OTIO_SCHEMA"], m["name"]})
}

// What a reader of the format makes of it, with types of its own.
type (
	rational struct{ Rate, Value float64 }
	span     struct {
		Start    rational `json:"start_time"`
		Duration rational `json:"duration"`
	}
	read struct {
		Start  rational `json:"global_start_time"`
		Tracks struct {
			Children []struct {
				Kind     string
				Children []struct {
					Name    string
					Range   span `json:"source_range"`
					Effects []struct {
						Scalar float64 `json:"time_scalar"`
					}
					Media map[string]struct {
						Range span `json:"available_range"`
					} `json:"media_references"`
					Key      string `json:"active_media_reference_key"`
					Metadata struct{ Seamrail map[string]any }
				}
				Markers []struct {
					Range span `json:"marked_range"`
				}
			}
		}
	}
)

func (r rational) seconds() float64 { return r.Value / r.Rate }

func back(t *testing.T, text string) read {
	var r read
	require.NoError(t, json.Unmarshal([]byte(text), &r))
	return r
}

// A clip lasts as long on the timeline as the loop on screen, and uses of the
// recording its length times the scalar: from frame 0 of its round to the last.
func TestTheRangeIsTheLoop(t *testing.T) {
	p := slow(t)
	hash := p.Hash()
	filmed := []selects.Filmed{{Number: 1, Plan: hash, Rounds: 3}, {Number: 4, Plan: hash, Rounds: 5, Notes: []string{"steam <just> right"}}}
	r := back(t, text(t, p, filmed...))
	takes := selects.Of(p, filmed)
	track := r.Tracks.Children[0]
	require.Equal(t, "Video", track.Kind)
	require.Equal(t, float64(p.Start), r.Start.Value)
	begin := 0.0
	for i, c := range track.Children {
		s := takes.Kept[i]
		capture := p.Loop.Clock.Capture.Float()
		require.Equal(t, s.Name(), c.Name)
		require.Equal(t, rational{capture, float64(s.First)}, c.Range.Start)
		require.Equal(t, 0.2, c.Effects[0].Scalar)
		used := c.Range.Duration.seconds() * c.Effects[0].Scalar * capture
		require.InDelta(t, float64(s.Frames()), used, 1e-9)
		media := c.Media[c.Key].Range
		require.Equal(t, rational{capture, float64(s.Recorded)}, media.Duration)
		require.Less(t, c.Range.Start.Value+used, media.Duration.Value+1e-9)
		begin += c.Range.Duration.Value
		require.Equal(t, begin-1, track.Markers[i].Range.Start.Value, "the seam is after the clip's last frame")
		require.Equal(t, float64(s.Seam()), c.Metadata.Seamrail["seam"])
	}
	require.Equal(t, 48.0, begin)
}

// A rate is the float nearest to it: no other is nearer to 24000/1001.
func TestRatesAreNearest(t *testing.T) {
	r := back(t, text(t, slow(t)))
	rate := r.Tracks.Children[0].Children[0].Range.Duration.Rate
	want, exactly := new(big.Rat).SetFrac64(24000, 1001).Float64()
	require.False(t, exactly)
	require.Equal(t, want, rate)
}

// What is filmed as it is shown has no retime.
func TestNoWarpAtRealSpeed(t *testing.T) {
	got := text(t, sample.Through(t).Plan())
	require.NotContains(t, got, "LinearTimeWarp")
	sample.Golden(t, "planned.otio", got)
}

func TestLeftOut(t *testing.T) {
	got := text(t, slow(t), selects.Filmed{Number: 9, Plan: "cafe", Rounds: 2})
	require.Contains(t, got, `"why": "it was filmed by another plan, cafe"`)
	require.Contains(t, got, `"children": []`, "a list, and never null")
}

func TestWriterFails(t *testing.T) {
	p := slow(t)
	v := verify.Check(trajectory.New(p))
	sample.Fails(t, len(text(t, p)), func(w io.Writer) error { return otio.Write(w, header.Of(p, v), selects.Of(p, nil)) })
}
