package picture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/camera/light"
	"seamrail/motion/camera/picture"
	"seamrail/motion/fade"
	"seamrail/motion/law"
	"seamrail/motion/scene"
	"seamrail/motion/track"
)

// faded is the key lamp along levels evenly spaced over a loop of so many frames at 120.
func faded(frames int64, l law.Law, levels ...float64) scene.Lamp {
	out := key()
	out.Level = scene.Number{}
	loop := exact.New(frames, 120)
	out.Fade = &fade.Fade{Loop: loop, Between: l}
	for i, v := range levels {
		out.Fade.Keys = append(out.Fade.Keys, track.Key{Time: loop.Mul(exact.New(int64(i), int64(len(levels)))), Pos: v})
	}
	return out
}

func lit(lamps ...scene.Lamp) scene.Scene {
	s := bench()
	s.Lamps = lamps
	return s
}

// needed is what exposes the bench: C N'^2/(t S), with N' = N (1 + m) (ISO 2720:1974).
func needed() float64 { return 250 * math.Pow(8*4.0/3, 2) / (open * 1600) }

// A lamp that fades between 0.9 and a quarter of it swings by two stops, is judged at its
// brightest, and says in which frames. At one level it is judged as if it did not fade.
func TestExposureOfAFade(t *testing.T) {
	const frames = 120
	steady := find(t, examine(t, at(t, 120, frames), lit(key())), "light")
	v := find(t, examine(t, at(t, 120, frames), lit(faded(frames, law.MinimumJerk(), 0.225, 0.9))), "light")
	assert.InDelta(t, 2, figure(t, v, "light swings"), 0.001, "but for the middle of the exposure")
	assert.InEpsilon(t, figure(t, steady, "light there"), figure(t, v, "light there"), 1e-4)
	assert.InEpsilon(t, figure(t, steady, "light there")/4, figure(t, v, "least light"), 1e-3)
	assert.Equal(t, steady.Level, v.Level)
	assert.Contains(t, v.Text, "at their brightest, frame 60")
	assert.Contains(t, v.Text, "swings by 2 stops, darkest in frame 0")
	assert.Equal(t, int64(60), v.When.Frame)

	flat := find(t, examine(t, at(t, 120, frames), lit(faded(frames, nil, 0.9, 0.9))), "light")
	assert.Equal(t, figure(t, steady, "light there"), figure(t, flat, "light there"))
	assert.Contains(t, flat.Text, "it stays so over the loop")

	down := find(t, examine(t, at(t, 120, frames), lit(faded(frames, law.MinimumJerk(), 0, 0, 0.9, 0))), "light")
	assert.Contains(t, down.Text, "goes down to nothing, in frame")
}

// A meter reads the light at its brightest; how far it swings from there the level of a
// lone lamp tells, whatever else is known of it, and of two lamps their figures must.
func TestAMeteredFade(t *testing.T) {
	lamp := faded(120, law.MinimumJerk(), 0.225, 0.9)
	lamp.Lumens = scene.Number{}
	s := lit(lamp)
	s.Metered = scene.Is(needed())
	v := find(t, examine(t, at(t, 120, 120), s), "light")
	assert.Equal(t, picture.Good, v.Level)
	assert.InDelta(t, 2, figure(t, v, "light swings"), 0.001)
	assert.InEpsilon(t, needed()/4, figure(t, v, "least light"), 1e-3)
	s.Lamps = append(s.Lamps, key())
	v = find(t, examine(t, at(t, 120, 120), s), "light")
	assert.Contains(t, v.Text, "how far it swings over the loop is not known")
	assert.Contains(t, v.Missing, "lumens of key")
}

// Two lamps of one kind, one up as the other goes down by the same law, swing by nothing.
func TestACrossfade(t *testing.T) {
	v := find(t, examine(t, at(t, 120, 120), lit(faded(120, law.MinimumJerk(), 0.2, 0.8), faded(120, law.MinimumJerk(), 0.8, 0.2))), "light")
	assert.InDelta(t, 0, figure(t, v, "light swings"), 1e-9)
}

// A uniform fade from 0.5 to 1 in 60 frames rises by a 60th of a half a frame; back at
// 0.5 it has fallen as fast. Of the light there that is a kick of 2/60, to either side
// of the bound. From rest to rest there is none, and that is the cure.
func TestTheKickOfLight(t *testing.T) {
	uniform, err := law.Named("uniform")
	require.NoError(t, err)
	const frames = 120
	s := lit(faded(frames, uniform, 0.5, 1))
	v := find(t, examine(t, at(t, 120, frames), s), "seam in the light")
	assert.InDelta(t, 100*2.0/60, figure(t, v, "kick"), 1e-6)
	assert.InDelta(t, 0, figure(t, v, "jump"), 1e-6)
	assert.Equal(t, picture.Poor, v.Level)
	assert.Equal(t, []string{"fades by the law 3-4-5, from rest to rest"}, v.Cures.Words())
	for _, c := range []struct {
		bound float64
		want  picture.Level
	}{{2.0/60 + 1e-6, picture.Good}, {2.0/60 - 1e-6, picture.Poor}} {
		s.Bounds.Flicker = c.bound
		assert.Equal(t, c.want, find(t, examine(t, at(t, 120, frames), s), "seam in the light").Level, "%g", c.bound)
	}
	v = find(t, examine(t, at(t, 120, frames), lit(faded(frames, law.MinimumJerk(), 0.5, 1))), "seam in the light")
	assert.Equal(t, picture.Good, v.Level)
	assert.InDelta(t, 0, figure(t, v, "kick"), 1e-9)
}

// A level that is cut from 80 to 20 % loses three quarters of its light: two stops.
func TestTheJumpOfLight(t *testing.T) {
	lamp := faded(120, law.MinimumJerk(), 0.2, 0.8)
	lamp.Fade.Cut = true
	v := find(t, examine(t, at(t, 120, 120), lit(lamp)), "seam in the light")
	assert.Equal(t, picture.Poor, v.Level)
	assert.InDelta(t, 75, figure(t, v, "jump"), 1e-9)
	assert.Contains(t, v.Text, "jumps by 75 %, 2 stops, as key goes from 80 % to 20 % at once")
	assert.Equal(t, []string{`the level back where it began by the seam (seam = "closed")`}, v.Cures.Words())
}

// Beside another lamp a jump is a share of the light of both, on the face where it shows
// most: the one that looks at the lamp that jumps.
func TestAJumpBesideAnotherLamp(t *testing.T) {
	jumps, other := faded(120, law.MinimumJerk(), 0.2, 0.8), key()
	jumps.Fade.Cut, jumps.Bearing, other.Level = true, 90, scene.Is(1)
	v := find(t, examine(t, at(t, 120, 120), lit(jumps, other)), "seam in the light")
	assert.InDelta(t, 75, figure(t, v, "jump"), 1e-6, "the other is square to it, and lights nothing there")
	jumps.Bearing = 0
	v = find(t, examine(t, at(t, 120, 120), lit(jumps, other)), "seam in the light")
	assert.InDelta(t, 100*0.6/1.8, figure(t, v, "jump"), 1e-6)
}

// jumping is a rail that is elsewhere where the loop closes, so that the picture jumps.
func jumping(t *testing.T, frames int64) fake { return at(t, 120, frames).with("across", steady(0, 3)) }

// Lamps that are as many stops under full exposure as count as black hide a jump of the
// picture, and a hair less far down they do not.
func TestLampsDownHideTheSeam(t *testing.T) {
	full := needed() / (light.Illuminance(light.Intensity(4500, 60), 600, 0)) // the level that exposes fully
	for _, c := range []struct {
		stops float64
		want  picture.Level
	}{{10.001, picture.Good}, {9.999, picture.Poor}} {
		level := full * math.Exp2(-c.stops)
		s := lit(faded(120, law.MinimumJerk(), level, 0.9))
		s.Lamps[0].Fade.Keys[0].Hold = exact.New(1, 60)
		s.Lamps[0].Fade.Keys[1].Hold = exact.New(1, 4)
		// Two frames before the seam it is back.
		s.Lamps[0].Fade.Keys = append(s.Lamps[0].Fade.Keys, track.Key{Time: exact.New(118, 120), Pos: level})
		r := examine(t, jumping(t, 120), s)
		v := find(t, r, "seam in the picture")
		assert.Equal(t, c.want, v.Level, "%g stops: %s", c.stops, v.Text)
		assert.Equal(t, c.want == picture.Good, v.Text[len(v.Text)-len("the lamps are down"):] == "the lamps are down", v.Text)
		under := find(t, r, "seam in the light")
		assert.InDelta(t, c.stops, figure(t, under, "under full exposure"), 1e-6)
	}
}

// A single lamp that stays lit keeps the seam from being dark, also one that only rims
// what is seen; and both frames beside the seam have to be dark, not the one.
func TestOneLampKeepsTheSeamLit(t *testing.T) {
	down := faded(120, law.MinimumJerk(), 0, 0.9, 0.9, 0)
	down.Fade.Keys[0].Hold, down.Fade.Keys[3].Time = exact.New(1, 60), exact.New(118, 120)
	dark := func(s scene.Scene) bool {
		return find(t, examine(t, jumping(t, 120), s), "seam in the picture").Level == picture.Good
	}
	assert.True(t, dark(lit(down)))
	rim := key()
	rim.Bearing, rim.Level = 180, scene.Is(0.5)
	assert.False(t, dark(lit(down, rim)))
	rim.Level = scene.Is(0)
	assert.True(t, dark(lit(down, rim)))

	late := down
	f := *down.Fade
	f.Keys = []track.Key{{Pos: 0, Hold: exact.New(1, 60)}, {Time: exact.New(1, 2), Pos: 0.9, Hold: exact.New(1, 4)}}
	f.Cut, late.Fade = true, &f
	assert.False(t, dark(lit(late)), "lit to the last, dark in the first")
}

// Where lamps are down the dark of the scene is dark, whatever hangs or stands before it.
func TestTheDarkUnderLampsThatAreDown(t *testing.T) {
	s := darkened(10, 0)
	s.Lamps = []scene.Lamp{faded(120, law.MinimumJerk(), 0, 0.9, 0.9, 0)}
	s.Lamps[0].Fade.Keys[0].Hold, s.Lamps[0].Fade.Keys[3].Time = exact.New(1, 60), exact.New(118, 120)
	v := find(t, examine(t, at(t, 120, 120), s), "dark at the seam")
	assert.Equal(t, picture.Good, v.Level)
	assert.Contains(t, v.Text, "the lamps are down at the seam, at nothing: dark")
	s.Lamps[0] = key()
	assert.Equal(t, picture.Poor, find(t, examine(t, at(t, 120, 120), s), "dark at the seam").Level)
}

// A lamp that ripples is hidden by a steady one, and shows as that goes down: the ripple
// left there is that of both, by their light.
func TestFlickerAsAnotherLampGoesDown(t *testing.T) {
	rippling := key()
	rippling.Ripple, rippling.Level = scene.Is(0.2), scene.Is(1)
	other := faded(120, law.MinimumJerk(), 0.1, 1)
	other.Ripple = scene.Is(0)
	s := lit(rippling, other)
	s.Mains = exact.Int(50)
	v := find(t, examine(t, at(t, 120, 120), s), "flicker")
	alone := find(t, examine(t, at(t, 120, 120), func() scene.Scene {
		x := lit(rippling)
		x.Mains = exact.Int(50)
		return x
	}()), "flicker")
	assert.InEpsilon(t, figure(t, alone, "depth")/1.1, figure(t, v, "depth"), 1e-3)
	assert.Equal(t, int64(0), v.When.Frame)
	assert.Contains(t, v.Text, "in frame 0, as the lamps stand then")
}

// A warm lamp that goes down before a cold one takes the white with it, and a filament
// goes redder by itself: 0.1^(0.42/3.4) of its temperature at a tenth of its light.
func TestColourOverTheLoop(t *testing.T) {
	warm, cold := faded(120, law.MinimumJerk(), 0.05, 1), faded(120, law.MinimumJerk(), 1, 0.05)
	warm.Kelvin, cold.Kelvin = scene.Is(3200), scene.Is(3300)
	v := find(t, examine(t, at(t, 120, 120), lit(warm, cold)), "colour of lamps")
	apart := light.Mired(3200) - light.Mired(3300)
	assert.InDelta(t, apart*0.95/1.05, figure(t, v, "over the loop"), 0.3)
	assert.Equal(t, picture.Good, v.Level)

	bulb := faded(120, law.MinimumJerk(), 0.1, 1)
	bulb.Kelvin = scene.Is(3200)
	assert.Equal(t, picture.Good, find(t, examine(t, at(t, 120, 120), lit(bulb)), "colour of lamps").Level)
	bulb.Filament = true
	v = find(t, examine(t, at(t, 120, 120), lit(bulb)), "colour of lamps")
	assert.Equal(t, picture.Fair, v.Level)
	assert.InDelta(t, light.Mired(3200)*(math.Pow(10, 0.42/3.4)-1), figure(t, v, "over the loop"), 0.2)
	assert.Contains(t, v.Text, "from 3200 K in frame 60 to 2410 K in frame 0")
	assert.Contains(t, find(t, examine(t, at(t, 120, 120), lit(bulb, warm)), "colour of lamps").Text, "at their fullest lamps lie up to 0 mired apart")
}

// The rows tell of the light where it changes, and of nothing where it does not.
func TestRowsOfLight(t *testing.T) {
	r := examine(t, at(t, 120, 120), lit(faded(120, law.MinimumJerk(), 0.225, 0.9)))
	assert.True(t, r.Fades)
	assert.InDelta(t, 2, r.Rows[0].Under, 1e-3)
	assert.InDelta(t, 0, r.Rows[60].Under, 1e-3)
	assert.True(t, math.IsNaN(r.Rows[0].Kelvin))
	assert.False(t, examine(t, at(t, 120, 120), lit(key())).Fades)
}

// A fade to one level is what a level is: no verdict that both have differs.
func TestAFadeThatStays(t *testing.T) {
	m := at(t, 120, 24)
	rapid.Check(t, func(t *rapid.T) {
		level := rapid.Float64Range(0.01, 1).Draw(t, "level")
		still, stays := key(), faded(24, nil, 0, 0)
		still.Level, still.Kelvin, stays.Kelvin = scene.Is(level), scene.Is(5600), scene.Is(5600)
		for i := range stays.Fade.Keys {
			stays.Fade.Keys[i].Pos = level
		}
		a, err := picture.Look(m, lit(still))
		require.NoError(t, err)
		b, err := picture.Look(m, lit(stays))
		require.NoError(t, err)
		for _, v := range a.Verdicts {
			w, ok := b.Find(v.Check)
			require.True(t, ok)
			if v.Check != "colour of lamps" {
				assert.Equal(t, v.Level, w.Level, v.Check)
			}
			for _, f := range v.Figures {
				got, _ := w.Figure(f.Name)
				assert.InDelta(t, f.Value, got, 1e-9*math.Max(1, math.Abs(f.Value)), "%s of %s", f.Name, v.Check)
			}
		}
	})
}

// BenchmarkFades looks at 2400 frames under three lamps that all change.
func BenchmarkFades(b *testing.B) {
	const frames = 2400
	s := lit(faded(frames, law.MinimumJerk(), 0, 0.9), faded(frames, law.MinimumJerk(), 0.9, 0.1), faded(frames, nil, 0.2, 0.5, 0.3))
	s.Mains = exact.Int(50)
	for i := range s.Lamps {
		s.Lamps[i].Ripple, s.Lamps[i].Kelvin = scene.Is(0.01), scene.Is(3200+1000*float64(i))
	}
	m := at(b, 120, frames)
	for b.Loop() {
		_, err := picture.Examine(m, s)
		require.NoError(b, err)
	}
	b.ReportMetric(float64(frames*b.N)/b.Elapsed().Seconds(), "frames/s")
}
