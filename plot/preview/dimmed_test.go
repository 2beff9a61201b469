package preview_test

import (
	"image"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/fade"
	"seamrail/motion/law"
	"seamrail/motion/scene"
	"seamrail/motion/track"
)

// levels has lamp i of a scene go by a law through levels, evenly spaced over a loop of
// so many frames at 24, each kept for half the time.
func levels(s *scene.Scene, i int, frames int64, v ...float64) {
	loop := exact.New(frames, 24)
	f := &fade.Fade{Loop: loop, Between: law.MinimumJerk()}
	each := loop.Quo(exact.Int(int64(len(v))))
	for k, level := range v {
		f.Keys = append(f.Keys, track.Key{Time: each.Mul(exact.Int(int64(k))), Pos: level, Hold: each.Quo(exact.Int(2))})
	}
	s.Lamps[i].Fade = f
}

func lamped(bearings ...float64) scene.Scene {
	s := lantern()
	s.Lamps = nil
	for _, b := range bearings {
		s.Lamps = append(s.Lamps, scene.Lamp{Lumens: scene.Is(1000), Beam: scene.Is(60), Distance: scene.Is(600), Bearing: b, Rise: 20})
	}
	return s
}

// everywhere compares all pixels, decoded to light (IEC 61966-2-1), with those of a frame
// at another level.
func everywhere(t *testing.T, a, b *image.RGBA, times float64) {
	t.Helper()
	worst := 0.0
	for i := range a.Pix {
		if i%4 != 3 {
			worst = math.Max(worst, math.Abs(light(a.Pix[i])-times*light(b.Pix[i])))
		}
	}
	assert.Less(t, worst, 0.006, "a code is up to 0.009 of the light wide at the top, and half as much is rounding")
}

// With one lamp all of the picture has the share of its light that the lamp has: half a
// level is half the light of each pixel, and nothing is black.
func TestThePictureDarkensAsLight(t *testing.T) {
	s := lamped(-40)
	levels(&s, 0, 24, 1, 0.5, 0)
	f := finder(t, shown(t, "24", "24", "", 24), s, 160)
	full, half, none := f.Frame(1), f.Frame(9), f.Frame(17)
	everywhere(t, half, full, 0.5)
	everywhere(t, none, full, 0)
	still := lamped(-40)
	assert.Equal(t, finder(t, shown(t, "24", "24", "", 24), still, 160).Frame(1).Pix, full.Pix, "at full it is as without a fade")
	assert.Contains(t, f.Assumed()[len(f.Assumed())-1], "exposed for frame 0, where the lamps are brightest")
}

// As one lamp goes down the side that it lights darkens more than the other, and nothing
// gets brighter.
func TestTheSideOfALampDarkens(t *testing.T) {
	s := lamped(-70, 70)
	levels(&s, 0, 24, 1, 0)
	f := finder(t, shown(t, "24", "24", "", 24), s, 320)
	both, one := f.Frame(1), f.Frame(13)
	sum := func(img *image.RGBA, from, to int) (all float64) {
		for x := from; x < to; x++ {
			all += light(img.RGBAAt(x, img.Rect.Dy()/2).G)
		}
		return all
	}
	left, right := sum(one, 110, 124)/sum(both, 110, 124), sum(one, 196, 210)/sum(both, 196, 210)
	assert.Less(t, left, right-0.1)
	for i := range one.Pix {
		require.LessOrEqual(t, int(one.Pix[i]), int(both.Pix[i])+1)
	}
}
