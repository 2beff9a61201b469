package otio

import (
	"math"
	"strings"

	"seamrail/motion/cue/syncmark"
	"seamrail/motion/edit/selects"
)

// sync puts the sync marks of a take on its clip. Where it was told in which frame of the
// recording they are seen, the clip begins where the recording has it, counted as there.
func (c *clip) sync(takes selects.Takes, s selects.Select, f syncmark.Found, own file) {
	m := takes.Mark
	begins := takes.Plan.RunUp // recorded frames of the take before its frame 0
	switch {
	case own.known:
		begins = int64(math.Round(s.Film.Zero))
	case f.Seen:
		begins = int64(math.Round(f.Frame))
		c.Range.Start = at(f.Kept, own.rate)
		c.Media = mediaOf("", s.Clip, span(at(begins-takes.Plan.RunUp, own.rate), at(s.Recorded, own.rate)))
	}
	note := strings.Join(f.Words(m), "; ")
	first := begins + m.Frame().Floor().Whole()
	if f.Seen {
		first = f.First
	}
	c.Markers = append(c.Markers, syncMarker("sync mark", m.First()+"; "+note, own.start+first, own.rate, facts{
		"with": m.Name(), "frame": m.Frame(), "frame_0_at": f.Frame, "give_or_take": f.Out, "kept_at": f.Kept, "kept_give_or_take": f.By,
	}))
	if n, ok := m.SecondFrame(s.Rounds); ok {
		last := begins + n.Floor().Whole()
		if f.Last > 0 {
			last = f.Last
		}
		c.Markers = append(c.Markers, syncMarker("sync mark after", m.Name(), own.start+last, own.rate, facts{"frame": n}))
	}
}
