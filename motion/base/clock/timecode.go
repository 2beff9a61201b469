package clock

import (
	"fmt"

	"seamrail/motion/base/exact"
)

// Timecode gives each frame of the timeline a label hours:minutes:seconds:frames,
// counted at the nominal rate: the whole rate at or above Rate. With Drop, labels
// are skipped so that they keep to the clock on the wall: the first two of each
// minute at 29.97, the first four at 59.94, but none in minutes 0, 10, 20, 30, 40
// and 50 (SMPTE ST 12-1:2014, DOI 10.5594/SMPTE.ST12-1.2014). Make one with
// NewTimecode.
type Timecode struct {
	Rate exact.Rat // timeline frames a second
	Drop bool
}

// NewTimecode returns a timecode. It returns an error if the rate is not above
// 0 and within 1/1000000..1000000, or drop is asked for at a rate other than
// 30000/1001 and 60000/1001.
func NewTimecode(rate exact.Rat, drop bool) (Timecode, error) {
	if err := checkRate("timecode rate", rate); err != nil {
		return Timecode{}, err
	}
	if drop && !rate.Equal(exact.New(30000, 1001)) && !rate.Equal(exact.New(60000, 1001)) {
		return Timecode{}, fmt.Errorf("drop-frame timecode at %s must be at 29.97 or 59.94; "+
			"leave drop-frame out", RateText(rate))
	}
	return Timecode{Rate: rate, Drop: drop}, nil
}

const (
	minutesPerDay = 24 * 60
	// undropped is how often a minute keeps all its labels: every tenth.
	undropped = 10
	// dropShare is the nominal rate over the labels dropped a minute: two of 30.
	dropShare = 15
)

// Nominal returns the whole number of labels that a second counts.
func (t Timecode) Nominal() int64 { return max(1, t.Rate.Ceil().Whole()) }

// dropped is how many labels a minute skips.
func (t Timecode) dropped() int64 {
	if !t.Drop {
		return 0
	}
	return t.Nominal() / dropShare
}

// Day returns the number of labels, and so of frames, in 24 label hours.
func (t Timecode) Day() int64 {
	skipping := int64(minutesPerDay - minutesPerDay/undropped)
	return minutesPerDay*60*t.Nominal() - skipping*t.dropped()
}

// Label returns the label of a frame; frame 0 is 00:00:00:00. Labels wrap at 24
// hours both ways, so frame -1 has the last label of the day. A drop-frame label
// has a semicolon before its frames. Frames have as many digits as the nominal
// rate needs, two at least.
func (t Timecode) Label(frame int64) string {
	minute, rest := t.minute(floorMod(frame, t.Day()))
	n := t.Nominal()
	mark := ":"
	if t.Drop {
		mark = ";"
	}
	return fmt.Sprintf("%02d:%02d:%02d%s%0*d", minute/60, minute%60, rest/n, mark, t.width(), rest%n)
}

// minute splits a frame of the day into its label minute and the number of its
// label within that minute, skipped labels counted.
func (t Timecode) minute(frame int64) (minute, label int64) {
	d := t.dropped()
	full := 60 * t.Nominal()
	ten := undropped*full - (undropped-1)*d
	minute, frame = frame/ten*undropped, frame%ten
	if frame < full {
		return minute, frame
	}
	frame -= full
	return minute + 1 + frame/(full-d), d + frame%(full-d)
}

func (t Timecode) width() int { return max(2, len(fmt.Sprint(t.Nominal()-1))) }

func floorMod(a, m int64) int64 { return (a%m + m) % m }
