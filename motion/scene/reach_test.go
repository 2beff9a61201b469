package scene_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"seamrail/motion/camera/optics"
	"seamrail/motion/scene"
)

func faultsOf(l scene.Lens) string {
	var out []string
	for _, f := range (scene.Scene{Lens: l}).Faults() {
		out = append(out, f.String())
	}
	return strings.Join(out, "\n")
}

// A lens may be set to what it has, and to nothing else; both sides of each edge.
func TestWhatTheLensHas(t *testing.T) {
	is := scene.Is
	fifty := scene.Lens{FocalLength: is(50), Widest: is(2), Smallest: is(16), Greatest: is(0.5), Nearest: is(150)}
	for _, x := range []struct {
		set  func(*scene.Lens)
		want string // "" for none
	}{
		{func(l *scene.Lens) { l.Aperture = is(2) }, ""},
		{func(l *scene.Lens) { l.Aperture = is(16) }, ""},
		{func(l *scene.Lens) { l.Aperture = is(1.8) }, "camera.aperture f/1.8 must be from f/2 to f/16"},
		{func(l *scene.Lens) { l.Aperture = is(18) }, "camera.aperture f/18 must be from f/2 to f/16"},
		{func(l *scene.Lens) { l.Widest, l.Smallest = is(16), is(2) }, "camera.apertures[2] f/2 must be smaller an opening"},
		{func(l *scene.Lens) { l.Magnification = is(0.509) }, ""}, // marks have two digits
		{func(l *scene.Lens) { l.Magnification = is(0.52) }, `camera.magnification 1:1.92 must be at most 1:2, the greatest magnification of the lens; stand farther away, or take a lens that goes nearer; rings of some 1 mm would do: extension`},
		{func(l *scene.Lens) { l.Magnification, l.Extension = is(3), is(25) }, ""}, // how far rings reach is not known
		{func(l *scene.Lens) { l.Magnification, l.Extension = is(0.5), is(25) }, ""},
		{func(l *scene.Lens) { l.Magnification, l.Extension = is(0.4), is(25) }, "camera.magnification 1:2.5 must be at least 1:2: a lens on 25 mm of rings does not focus farther"},
		{func(l *scene.Lens) { l.Focus = is(150) }, ""},
		{func(l *scene.Lens) { l.Focus = is(146); l.Greatest = scene.Number{} }, "camera.focus 146 mm must be 150 mm or more, the nearest focus of the lens"},
		{func(l *scene.Lens) { l.Focus, l.Extension = is(110), is(20) }, ""}, // rings bring it nearer
		{func(l *scene.Lens) { l.Focus = is(100); l.Nearest = scene.Number{} }, "camera.focus 100 mm magnifies 1:1, which must be at most 1:2"},
		{func(l *scene.Lens) { l.FocalLength, l.Magnification = scene.Number{}, is(1) }, "camera.magnification 1:1 must be at most 1:2"},
		{func(l *scene.Lens) { l.FocalLength, l.Magnification, l.Extension = scene.Number{}, is(1), is(25) }, ""}, // what the rings do is not known
		{func(l *scene.Lens) { l.Breathing = is(5) }, ""},
		{func(l *scene.Lens) { l.Breathing = is(-0.5) }, ""},
		{func(l *scene.Lens) { l.Breathing = is(5.01) }, "camera.breathing 501 % must be from -50 % to 500 %"},
		{func(l *scene.Lens) { l.Breathing, l.Nearest = is(0.04), scene.Number{} }, ""}, // its greatest magnification tells where
		{func(l *scene.Lens) { l.Breathing, l.Nearest, l.Greatest = is(0.04), scene.Number{}, scene.Number{} }, "camera.breathing 4 % is at the nearest focus of the lens by itself, which is not known"},
		{func(l *scene.Lens) { l.Breathing, l.Extension = is(0.04), is(25) }, "camera.breathing 4 % is at the nearest focus"},
	} {
		l := fifty
		x.set(&l)
		got := faultsOf(l)
		if x.want == "" {
			assert.Empty(t, got, fmt.Sprint(l))
		} else {
			assert.True(t, strings.HasPrefix(got, x.want), got)
			assert.NotContains(t, got, "\n")
		}
	}
}

// Rings move the picture back by their length: the least magnification is that of the
// lens equation for a lens that is focused infinitely far, its picture f behind it.
func TestRingsByTheLensEquation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, e := rapid.Float64Range(20, 200).Draw(t, "f"), rapid.Float64Range(1, 100).Draw(t, "e")
		u := 1 / (1/f - 1/(f+e)) // of what is sharp on a sensor that far away
		least := optics.Magnification(f, u)
		l := scene.Lens{FocalLength: scene.Is(f), Extension: scene.Is(e), Magnification: scene.Is(least * 0.99)}
		assert.Empty(t, faultsOf(l), "marks have two digits")
		l.Magnification = scene.Is(least * 0.97)
		assert.Contains(t, faultsOf(l), "does not focus farther")
	})
}
