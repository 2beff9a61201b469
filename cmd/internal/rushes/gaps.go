package rushes

import (
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/intact"
)

// GapsOf is what is missing in a recording or there twice, as a plan is laid on it.
func GapsOf(f intact.Found) (out []against.Gap) {
	for _, d := range f.Doubled {
		out = append(out, against.Gap{Frame: d.Frame, Twice: d.Times})
	}
	for _, d := range f.Dropped {
		out = append(out, against.Gap{Frame: d.Frame, Missing: d.Missing})
	}
	return out
}
