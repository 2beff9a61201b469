package otio

import "seamrail/motion/base/exact"

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

type marker struct {
	Schema   string     `json:"OTIO_SCHEMA"`
	Metadata facts      `json:"metadata"`
	Name     string     `json:"name"`
	Color    string     `json:"color"`
	Range    *timeRange `json:"marked_range"`
	Comment  string     `json:"comment"`
}
