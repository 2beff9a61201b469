package otio

import (
	"cmp"
	"fmt"
	"path"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
)

// facts are metadata.
type facts map[string]any

// ours puts metadata under our own name, as the format asks of every program.
func ours(f facts) facts { return facts{"seamrail": f} }

// mediaKey is the format's own name for the media of a clip that has one.
const mediaKey = "DEFAULT_MEDIA"

type rationalTime struct {
	Schema string  `json:"OTIO_SCHEMA"`
	Rate   float64 `json:"rate"`
	Value  float64 `json:"value"`
}

// at is so many frames at a rate.
func at(frames int64, rate exact.Rat) rationalTime {
	return rationalTime{"RationalTime.1", rate.Float(), float64(frames)}
}

type timeRange struct {
	Schema   string       `json:"OTIO_SCHEMA"`
	Duration rationalTime `json:"duration"`
	Start    rationalTime `json:"start_time"`
}

func span(start, duration rationalTime) *timeRange {
	return &timeRange{"TimeRange.1", duration, start}
}

// item is what clips, tracks and stacks have in common.
type item struct {
	Metadata facts      `json:"metadata"`
	Range    *timeRange `json:"source_range"`
	Effects  []warp     `json:"effects"`
	Markers  []marker   `json:"markers"`
	Enabled  bool       `json:"enabled"`
}

func plainItem() item {
	return item{Metadata: facts{}, Effects: []warp{}, Markers: []marker{}, Enabled: true}
}

// whole is a timeline.
type whole struct {
	Schema   string       `json:"OTIO_SCHEMA"`
	Metadata facts        `json:"metadata"`
	Name     string       `json:"name"`
	Start    rationalTime `json:"global_start_time"`
	Tracks   composition  `json:"tracks"`
}

// composition is a stack, or a track where it has a kind.
type composition struct {
	Schema string `json:"OTIO_SCHEMA"`
	Name   string `json:"name"`
	item
	Kind     string `json:"kind,omitempty"`
	Children []any  `json:"children"`
}

type clip struct {
	Schema string `json:"OTIO_SCHEMA"`
	Name   string `json:"name"`
	item
	Media map[string]any `json:"media_references"`
	Key   string         `json:"active_media_reference_key"`
}

// missing stands for a recording whose file nobody has named.
type missing struct {
	Schema   string     `json:"OTIO_SCHEMA"`
	Metadata facts      `json:"metadata"`
	Name     string     `json:"name"`
	Range    *timeRange `json:"available_range"`
	Bounds   *struct{}  `json:"available_image_bounds"`
}

// external is a recording that is a file, named as seen from the timeline.
type external struct {
	Schema   string     `json:"OTIO_SCHEMA"`
	Metadata facts      `json:"metadata"`
	Name     string     `json:"name"`
	Range    *timeRange `json:"available_range"`
	Bounds   *struct{}  `json:"available_image_bounds"`
	URL      string     `json:"target_url"`
}

// mediaOf is the recording of a take. Where the log has the name of its file the reference
// is to that, as if it lay beside the timeline, which is where edit programs look first;
// a card and a clip number name no file, and are the name of one that is missing.
func mediaOf(reel, clip string, frames *timeRange) map[string]any {
	clip = header.Clean(clip)
	if path.Ext(clip) == "" {
		return map[string]any{mediaKey: missing{
			Schema: "MissingReference.1", Name: cmp.Or(clip, reel), Metadata: facts{}, Range: frames,
		}}
	}
	return map[string]any{mediaKey: external{
		Schema: "ExternalReference.1", Name: clip, Metadata: facts{}, URL: escaped(clip), Range: frames,
	}}
}

// escaped is the name of a file as the path of a URL: whatever is not unreserved as
// percent and two digits (RFC 3986, sections 2.1 and 2.3).
func escaped(name string) string {
	out := ""
	for _, b := range []byte(name) {
		switch {
		case b >= 'a' && b <= 'z', b >= 'A' && b <= 'Z', b >= '0' && b <= '9', strings.IndexByte("-._~", b) >= 0:
			out += string(rune(b))
		default:
			out += fmt.Sprintf("%%%02X", b)
		}
	}
	return out
}

// transition lies between two clips and takes no time of its own.
type transition struct {
	Schema   string       `json:"OTIO_SCHEMA"`
	Metadata facts        `json:"metadata"`
	Name     string       `json:"name"`
	Type     string       `json:"transition_type"`
	In       rationalTime `json:"in_offset"`
	Out      rationalTime `json:"out_offset"`
}

type warp struct {
	Schema   string  `json:"OTIO_SCHEMA"`
	Metadata facts   `json:"metadata"`
	Name     string  `json:"name"`
	Effect   string  `json:"effect_name"`
	Scalar   float64 `json:"time_scalar"`
}

// warpOf is a linear retime.
func warpOf(r exact.Rat) warp {
	return warp{Schema: "LinearTimeWarp.1", Effect: "LinearTimeWarp", Scalar: r.Float(), Metadata: ours(facts{"retime": r})}
}

// syncMarker is a mark at a frame of a recording.
func syncMarker(name, comment string, frame int64, rate exact.Rat, said facts) marker {
	return marker{
		Schema: "Marker.2", Name: name, Color: "GREEN", Metadata: ours(said), Comment: comment,
		Range: span(at(frame, rate), at(1, rate)),
	}
}

type marker struct {
	Schema   string     `json:"OTIO_SCHEMA"`
	Metadata facts      `json:"metadata"`
	Name     string     `json:"name"`
	Color    string     `json:"color"`
	Range    *timeRange `json:"marked_range"`
	Comment  string     `json:"comment"`
}
