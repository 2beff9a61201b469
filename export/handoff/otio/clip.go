package otio

import (
	"io"
	"path"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/timeline"
)

// WriteClip writes a clip of several shots as one timeline: a video track with its events
// in order, each retimed as its shot is, a transition where it dissolves, and markers on
// the track; and, where sound names a file beside it, an audio track of that.
//
// A transition takes no time of its own: it reaches in_offset frames into the event before
// it and out_offset into the one after. Its error is the writer's, wrapped.
func WriteClip(w io.Writer, t timeline.Timeline, sound string) error {
	return encoded(w, sequenceOf(t, sound))
}

func sequenceOf(t timeline.Timeline, sound string) whole {
	c := t.Clip
	rate := c.Playback
	video := composition{Schema: "Track.1", Name: "clip", Kind: "Video", item: plainItem(), Children: []any{}}
	n := len(t.Events)
	for i, e := range t.Events {
		video.Children = append(video.Children, eventOf(t, e))
		if j := t.Joins[i]; j.Length() > 0 && i+1 < n {
			video.Children = append(video.Children, transition{
				Schema: "Transition.1", Name: "dissolve", Type: "SMPTE_Dissolve", In: at(j.In, rate), Out: at(j.Out, rate),
				Metadata: ours(facts{"frames": j.Length()}),
			})
		}
	}
	for _, m := range t.Marks {
		video.Markers = append(video.Markers, marker{
			Schema: "Marker.2", Name: header.Clean(m.Name), Color: m.What.Colour(), Metadata: ours(facts{"screen_seconds": m.At}),
			Range: span(at(m.Frame, rate), at(1, rate)),
		})
	}
	stack := composition{Schema: "Stack.1", Name: "tracks", item: plainItem(), Children: []any{video}}
	if sound != "" {
		stack.Children = append(stack.Children, soundOf(c.Frames, rate, sound))
	}
	return whole{
		Schema: "Timeline.1", Name: header.Clean(c.Title), Metadata: ours(facts{"playback": rate, "frames": c.Frames}),
		Start: at(c.Start, rate), Tracks: stack,
	}
}

func eventOf(t timeline.Timeline, e timeline.Event) clip {
	p := t.Piece(e)
	k := mediaClock(p.Shot.Clock, p.Shot.ByFrame)
	own := fileOf(e.Film, k, p.Shot.Clock.PerScreen())
	out := clip{
		Schema: "Clip.2", Name: nameOf(p.Entry.File) + ", " + e.Name(), item: plainItem(), Key: mediaKey,
		Media: mediaOf(e.Reel, e.Clip, span(own.at(0), at(e.Recorded, own.rate))),
	}
	out.Range = span(rationalTime{"RationalTime.1", own.rate.Float(), exact.Int(own.start).Add(e.First).Float()}, at(e.Frames, k.Playback))
	said := facts{
		"file": p.Entry.File, "piece": e.Piece + 1, "take": e.Number(), "filmed": !e.Planned(), "notes": header.CleanAll(e.Notes),
		"reel": e.Reel, "first": e.First, "used": e.Used, "last": e.Last(k.PerScreen()), "loop_frame": e.From,
		"before": e.Before, "after": e.After, "retime": k.Retime, "capture": k.Capture,
	}
	if own.known {
		said["film"] = filmFacts(*e.Film, p.Trajectory.RoundFrames())
	}
	out.Metadata = ours(said)
	if r := own.retime; !r.Equal(exact.Int(1)) {
		out.Effects = []warp{warpOf(r)}
	}
	return out
}

// nameOf is what a shot's file is called without its folder and ending.
func nameOf(file string) string {
	return header.Clean(strings.TrimSuffix(path.Base(file), path.Ext(file)))
}

// soundOf is a track with one sound as long as the clip.
func soundOf(frames int64, rate exact.Rat, file string) composition {
	one := clip{
		Schema: "Clip.2", Name: nameOf(file), item: plainItem(), Key: mediaKey,
		Media: map[string]any{mediaKey: external{
			Schema: "ExternalReference.1", Name: file, Metadata: facts{}, URL: file, Range: span(at(0, rate), at(frames, rate)),
		}},
	}
	one.Range = span(at(0, rate), at(frames, rate))
	return composition{Schema: "Track.1", Name: "cues", Kind: "Audio", item: plainItem(), Children: []any{one}}
}
