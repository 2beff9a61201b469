package otio

import (
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/edit/filmed"
)

// file is how the frames of a recording are counted: of a file that was looked through from its
// own timecode on, at its own rate.
type file struct {
	known  bool
	rate   exact.Rat
	start  int64     // what its timecode counts before its first frame
	retime exact.Rat // seconds of it for each on the timeline
}

// fileOf is how the frames of a film are counted, or those of a recording that nobody has looked
// through, which has its own clock; perScreen are recorded frames for each that is shown. Stills
// have no rate but that at which they are brought in.
func fileOf(f *filmed.Film, media clock.Clock, perScreen exact.Rat) file {
	if f == nil || !f.Known() {
		return file{rate: media.Capture, retime: media.Retime}
	}
	rate := f.Rate
	if rate.Sign() <= 0 {
		rate = media.Playback
	}
	return file{known: true, rate: rate, start: f.Start(), retime: perScreen.Mul(media.Playback).Quo(rate)}
}

// at is a frame of the file in its count.
func (f file) at(frame int64) rationalTime { return at(f.start+frame, f.rate) }

// marker is where the plan begins in a film.
func (f file) marker(film filmed.Film, all int64) marker {
	return syncMarker("frame 0", header.Clean(strings.Join(film.Words(all), "; ")), f.start+film.In, f.rate, facts{
		"frame_0": film.Zero, "standard_uncertainty": film.Sure, "by": film.By,
	})
}

// filmFacts are what is known of a film, exactly.
func filmFacts(f filmed.Film, all int64) facts {
	out := facts{
		"file": header.Clean(f.File), "rate": f.Rate, "frames": f.Frames, "frame_0": f.Zero, "frame_0_standard_uncertainty": f.Sure, "by": f.By,
		"first": f.In, "last": f.Out - 1, "seam": f.Out, "rounded": f.Rounded(all), "verdict": header.Clean(f.Verdict), "apart_px": f.Apart,
	}
	if len(f.Hands) > 0 {
		out["hands"] = header.CleanAll(f.Hands)
	}
	if first := f.Label(f.In); first != "" {
		out["timecode"], out["timecode_first"], out["timecode_seam"] = header.Clean(f.Timecode), first, f.Label(f.Out)
	}
	return out
}
