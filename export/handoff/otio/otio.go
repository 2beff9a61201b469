// Package otio writes the kept takes as a timeline in OpenTimelineIO JSON
// (Academy Software Foundation, "OTIO serialized schema", field by field): one
// clip a take, one after the other, each retimed to the length of the loop.
//
// Times there are a number of frames and a rate, both floats of 53 bits. Frames
// are whole and so exact; a rate such as 24000/1001 is the float nearest to it,
// off by at most one part in 2^53. The exact ratios stand in the metadata. The
// source range of a clip begins at a captured frame, counted at the capture
// rate, and lasts so many timeline frames, counted at the playback rate: of the
// recording it uses its length times the retime, which is how readers of the
// format take a LinearTimeWarp.
//
// Where the camera's file was looked through, both ranges are those of that file: what there is of
// it begins at its own timecode, as the format's documentation on time ranges has it, at its own
// rate, and the warp takes one of its frames for each that is shown, whatever rate it claims.
package otio

import (
	"fmt"
	"io"

	"seamrail/export/header"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/selects"
	"seamrail/motion/spec/shot"
)

// Write writes the timeline as one indented JSON document and a newline. The
// error is the writer's, wrapped.
func Write(w io.Writer, head header.Head, takes selects.Takes) error {
	return encoded(w, timelineOf(takes, head))
}

func encoded(w io.Writer, t whole) error {
	e := plain.Encoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	if err := e.Encode(t); err != nil {
		return fmt.Errorf("writing the timeline: %w", err)
	}
	return nil
}

func timelineOf(takes selects.Takes, head header.Head) whole {
	p := takes.Plan
	track := composition{Schema: "Track.1", Name: "kept takes", Kind: "Video", item: plainItem(), Children: []any{}}
	for i, s := range takes.Kept {
		track.Children = append(track.Children, clipOf(takes, s))
		track.Markers = append(track.Markers, seamOf(p.Loop, int64(i), s))
	}
	stack := composition{Schema: "Stack.1", Name: "tracks", item: plainItem(), Children: []any{track}}
	return whole{
		Schema: "Timeline.1", Name: header.Clean(p.Title), Metadata: ours(facts{
			"plan": head.Plan, "checks": head.Passed, "fails": head.Fails, "unknown": head.Unknown,
			"capture": p.Loop.Clock.Capture, "playback": p.Loop.Clock.Playback,
			"left_out": leftOut(takes),
		}),
		Start: at(p.Start, p.Loop.Clock.Playback), Tracks: stack,
	}
}

func leftOut(takes selects.Takes) []facts {
	out := []facts{}
	for _, l := range takes.LeftOut {
		out = append(out, facts{"take": l.Take, "why": header.Clean(l.Why)})
	}
	return out
}

func clipOf(takes selects.Takes, s selects.Select) clip {
	loop, media := takes.Plan.Loop, mediaClock(takes.Plan.Loop.Clock, takes.Plan.ByFrame)
	capture := media.Capture
	c := clip{
		Schema: "Clip.2", Name: s.Name(), item: plainItem(), Key: mediaKey,
		Media: mediaOf("", s.Clip, span(at(0, capture), at(s.Recorded, capture))),
	}
	c.Range = span(at(s.First, capture), at(loop.Screen, loop.Clock.Playback))
	said := facts{
		"take": s.Take, "notes": header.CleanAll(s.Notes), "rounds": s.Rounds, "round": s.Round + 1, "first": s.First, "last": s.Last,
		"seam": s.Seam(), "before": s.Before, "after": s.After,
	}
	own := fileOf(s.Film, media, loop.Clock.PerScreen())
	if own.known {
		c.Range = span(own.at(s.Film.In), at(loop.Screen, loop.Clock.Playback))
		c.Media = mediaOf("", s.Clip, span(own.at(0), at(s.Film.Frames, own.rate)))
		c.Markers = append(c.Markers, own.marker(*s.Film, takes.Plan.RoundFrames()))
		said["film"] = filmFacts(*s.Film, takes.Plan.RoundFrames())
	}
	c.Metadata = ours(said)
	if f := s.Sync; f != nil {
		c.sync(takes, s, *f, own)
	}
	if r := own.retime; !r.Equal(exact.Int(1)) {
		c.Effects = []warp{warpOf(r)}
	}
	return c
}

// mediaClock is the clock of the recording as edit programs take it: stills that were exposed
// one by one follow each other at the rate of the timeline.
func mediaClock(k clock.Clock, by *shot.ByFrame) clock.Clock {
	if by != nil {
		return k.Stills()
	}
	return k
}

// seamOf marks the last frame of a clip on the timeline.
func seamOf(loop clock.Loop, i int64, s selects.Select) marker {
	rate := loop.Clock.Playback
	return marker{
		Schema: "Marker.2", Name: "seam", Color: "RED", Metadata: facts{},
		Comment: s.Name() + ": after this frame comes the first one again",
		Range:   span(at((i+1)*loop.Screen-1, rate), at(1, rate)),
	}
}
