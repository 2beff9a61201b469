package clock

import (
	"fmt"
	"strconv"
	"strings"
)

// maxLabel is the longest label that is read, in bytes: six digits of frames.
const maxLabel = len("00:00:00:000000")

// Parse returns the frame, within 0 and Day()-1, that has the label. The mark
// before the frames may be a colon or, for drop-frame only, a semicolon. It
// returns an error if the label is not four numbers, a number is out of range,
// or drop-frame skips the label; the error names the next that exists.
func (t Timecode) Parse(label string) (int64, error) {
	part, err := t.parts(strings.TrimSpace(label))
	if err != nil {
		return 0, err
	}
	n, d := t.Nominal(), t.dropped()
	minute := 60*part[0] + part[1]
	within := n*part[2] + part[3]
	if minute%undropped != 0 && within < d {
		return 0, fmt.Errorf("timecode %q is skipped by drop-frame; the next label is %q",
			label, t.Label(t.start(minute)))
	}
	if minute%undropped != 0 {
		within -= d
	}
	return t.start(minute) + within, nil
}

// start returns the first frame of a label minute.
func (t Timecode) start(minute int64) int64 {
	return minute*60*t.Nominal() - (minute-(minute+undropped-1)/undropped)*t.dropped()
}

// parts reads and bounds the four numbers of a label.
func (t Timecode) parts(label string) ([4]int64, error) {
	var out [4]int64
	if len(label) > maxLabel {
		return out, fmt.Errorf("timecode of %d characters must be like %q", len(label), t.Label(0))
	}
	fields := strings.Split(t.colons(label), ":")
	if len(fields) != len(out) {
		return out, fmt.Errorf("timecode %q must be hours:minutes:seconds:frames, like %q", label, t.Label(0))
	}
	bounds := [4]int64{24, 60, 60, t.Nominal()}
	names := [4]string{"hours", "minutes", "seconds", "frames"}
	for i, f := range fields {
		v, err := strconv.ParseUint(f, 10, 32)
		if err != nil || int64(v) >= bounds[i] {
			return out, fmt.Errorf("timecode %q has %s %q; they must be 00 to %d", label, names[i], f, bounds[i]-1)
		}
		out[i] = int64(v)
	}
	return out, nil
}

// colons turns a drop-frame label's semicolon, before its frames, into a colon.
func (t Timecode) colons(label string) string {
	i := strings.LastIndexAny(label, ":;")
	if t.Drop && i >= 0 {
		return label[:i] + ":" + label[i+1:]
	}
	return label
}
