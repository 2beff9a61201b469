package cue_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/cue"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

const (
	anyRig = "[axis.rail]\nletter=\"X\"\ntravel=[\"0 mm\",\"400 mm\"]\nspeed=\"400 mm/s\"\nacceleration=\"3000 mm/s2\"\nsteps=\"80 per mm\"\n" +
		"[axis.pan]\nletter=\"B\"\ntravel=[\"-90 deg\",\"90 deg\"]\nspeed=\"90 deg/s\"\nacceleration=\"180 deg/s2\"\nsteps=\"160 per deg\"\n" +
		"[stand.display.speed.slow]\nperiod=\"7.2 s\"\nuncertainty=\"0.001 s\"\n"
	anyShot = "[clock]\nplayback=\"24\"\nloop=\"48 frames\"\n[rig]\nfile=\"r\"\n[axis.rail]\nfrom=\"40 mm\"\nto=\"90 mm\"\n" +
		"[axis.pan]\nmove=\"aim\"\nfollow=\"rail\"\nas=\"pan\"\npoint=[\"160 mm\",\"400 mm\",\"0 mm\"]\n" +
		"[spin.display]\nspeed=\"slow\"\n[[cue]]\nname=\"a\"\nat=\"turnaround\"\naxis=\"rail\"\nwhich=1\nfall=\"150 mm\"\n"
)

// Whatever is sound of a shot and a rig is joined without a panic, and what is
// wrong is told of one of the two files.
func FuzzBeside(f *testing.F) {
	f.Add(anyShot, anyRig)
	f.Add(anyShot+"[axis.crane]\nmove=\"through\"\n", anyRig)
	f.Add("[clock]\npace=\"quickest\"\n"+anyShot[8:], anyRig+"zz=1\n")
	f.Add(anyShot, "[axis.rail]\n[axis.pan]\ntravel=3\n[stand.display]\n")
	f.Fuzz(func(t *testing.T, text, machine string) {
		s, faults := shot.Understand("s", []byte(text), nil)
		r, _, more := rig.Understand("r", []byte(machine))
		known := append(faults, more...)
		all := cue.Beside(known, s, r)
		assert.GreaterOrEqual(t, len(all), len(known))
		for _, x := range all {
			assert.Contains(t, []string{"s", "r"}, x.File)
		}
	})
}
