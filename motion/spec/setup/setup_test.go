package setup_test

import (
	"errors"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
	"seamrail/motion/scene"
	"seamrail/motion/spec/setup"
	"seamrail/motion/spec/shot"
)

// folder is files by their names.
type folder map[string]string

func (f folder) files() setup.Files {
	return setup.Files{Open: func(from, name string) (setup.Found, error) {
		found := setup.Found{Name: path.Join(path.Dir(from), name)}
		text, ok := f[found.Name]
		if !ok {
			return found, errors.New("there is no file " + found.Name)
		}
		found.Data = []byte(text)
		return found, nil
	}}
}

func (f folder) decode(name string) (shot.Shot, error) {
	return f.files().Decode(name, []byte(f[name]), nil)
}

// moves is what a shot says itself.
const moves = `
[clock]
loop = "144 frames"
[axis.rail]
from = "40 mm"
to   = "100 mm"
[axis.table]
turns    = "1/6"
symmetry = 6
`

const table = `set-up = "Small table"
[clock]
capture  = "119.88"
playback = "23.976"
[take]
rounds = 4
[rig]
file = "bench.toml"
[camera]
use      = "shelf/body.toml"
lens     = "shelf/fifty.toml"
focus    = "380 mm"
aperture = "f/11"
[scene]
distance = "454 mm"
[scene.product]
shape  = "prism"
sides  = 6
radius = "45 mm"
[[scene.lamps]]
name     = "key"
use      = "shelf/panel.toml"
distance = "500 mm"
[[scene.lamps]]
name     = "fill"
use      = "shelf/panel.toml"
distance = "700 mm"
lumens   = "900 lm"
`

const (
	body  = "camera = \"Body\"\nsensor-width = \"36 mm\"\npixels-wide = 1920\npixels-high = 1080\n"
	fifty = "lens = \"Fifty\"\nfocal-length = \"50 mm\"\npupil-ratio = 0.9\napertures = [\"f/2\", \"f/16\"]\ngreatest-magnification = \"1:2\"\n"
	macro = "lens = \"Macro\"\nfocal-length = \"100 mm\"\ngreatest-magnification = \"1:1\"\n"
	panel = "lamp = \"Panel\"\nlumens = \"3900 lm\"\nbeam = \"60 deg\"\nkelvin = \"5600 K\"\n"
	spot  = "lamp = \"Spot\"\nlumens = \"1200 lm\"\nbeam = \"20 deg\"\n"
)

func day(a string) folder {
	return folder{
		"a.toml": a, "table.toml": table, "shelf/body.toml": body, "shelf/fifty.toml": fifty,
		"shelf/macro.toml": macro, "shelf/panel.toml": panel, "shelf/spot.toml": spot,
	}
}

// shotOn is a shot on the table, with what it says besides.
func shotOn(besides string) folder {
	return day("shot = \"A\"\nsetup = \"table.toml\"\n" + moves + besides)
}

func TestWhatLiesUnderAShot(t *testing.T) {
	s, err := shotOn("[camera]\niso = 800\n[[scene.lamps]]\nname = \"key\"\nlevel = \"50 %\"\n[[scene.lamps]]\nname = \"rim\"\nlumens = 300\n").decode("a.toml")
	require.NoError(t, err)
	assert.Equal(t, "A", s.Title)
	assert.Equal(t, 4, s.Rounds)
	assert.Equal(t, "bench.toml", s.RigFile)
	assert.Equal(t, "table.toml", s.RigFrom, "its file is seen from there")
	c, l := s.Scene.Camera, s.Scene.Lens
	assert.Equal(t, []float64{36, 1920, 800}, []float64{c.SensorWidth.Value, c.PixelsWide.Value, c.ISO.Value}, "from the shelf twice, from the shot")
	assert.Equal(t, []float64{50, 0.9, 11, 380}, []float64{l.FocalLength.Value, l.PupilRatio.Value, l.Aperture.Value, l.Focus.Value})
	require.Len(t, s.Scene.Lamps, 3)
	key, fill, rim := s.Scene.Lamps[0], s.Scene.Lamps[1], s.Scene.Lamps[2]
	assert.Equal(t, []float64{3900, 500, 0.5}, []float64{key.Lumens.Value, key.Distance.Value, key.Level.Value})
	assert.Equal(t, []float64{900, 60}, []float64{fill.Lumens.Value, fill.Beam.Value}, "the set-up's own is taken before the shelf's")
	assert.Equal(t, "rim", rim.Name)
	assert.Equal(t, 300.0, rim.Lumens.Value)
	assert.Equal(t, []shot.LaidFile{
		{Kind: "set-up", Name: "table.toml", Title: "Small table"}, {Kind: "camera", Name: "shelf/body.toml", Title: "Body"},
		{Kind: "lens", Name: "shelf/fifty.toml", Title: "Fifty"}, {Kind: "lamp", Name: "shelf/panel.toml", Title: "Panel"},
	}, s.Laid.Files)
}

// What stands above takes the place of what is below, and of what says the same in
// another way.
func TestWhatTakesThePlaceOfWhat(t *testing.T) {
	for besides, check := range map[string]func(t *testing.T, s shot.Shot){
		"[camera]\nmagnification = \"1:4\"\n": func(t *testing.T, s shot.Shot) {
			assert.False(t, s.Scene.Lens.Focus.Given, "it says the same in another way")
			assert.Equal(t, 0.25, s.Scene.Lens.Magnification.Value)
		},
		"[camera]\nlens = \"shelf/macro.toml\"\n": func(t *testing.T, s shot.Shot) {
			l := s.Scene.Lens
			assert.Equal(t, []float64{100, 11, 380}, []float64{l.FocalLength.Value, l.Aperture.Value, l.Focus.Value}, "how it is set stays")
			assert.False(t, l.PupilRatio.Given || l.Smallest.Given, "nothing of the other lens is left")
		},
		"[[scene.lamps]]\nname = \"fill\"\nuse = \"shelf/spot.toml\"\n": func(t *testing.T, s shot.Shot) {
			fill := s.Scene.Lamps[1]
			assert.Equal(t, []float64{1200, 20, 700}, []float64{fill.Lumens.Value, fill.Beam.Value, fill.Distance.Value}, "another lamp in the same place")
			assert.False(t, fill.Kelvin.Given)
		},
		"[[scene.lamps]]\nname = \"fill\"\nwithout = true\n": func(t *testing.T, s shot.Shot) {
			require.Len(t, s.Scene.Lamps, 1)
			assert.Equal(t, "key", s.Scene.Lamps[0].Name)
		},
		"[[scene.lamps]]\nname = \"fill\"\nwithout = true\nbeam = \"9 deg\"\n": func(t *testing.T, s shot.Shot) {
			fill := s.Scene.Lamps[1]
			assert.False(t, fill.Lumens.Given || fill.Distance.Given, "nothing of the set-up's is left")
			assert.Equal(t, 9.0, fill.Beam.Value)
		},
		"[[scene.lamps]]\nname = \"fill\"\nwithout = [\"lumens\"]\n": func(t *testing.T, s shot.Shot) {
			assert.Equal(t, 3900.0, s.Scene.Lamps[1].Lumens.Value, "that of the shelf is under it")
		},
		"[scene]\nwithout = \"distance\"\n": func(t *testing.T, s shot.Shot) {
			assert.False(t, s.Scene.Stand.Distance.Given)
			assert.Len(t, s.Scene.Lamps, 2)
		},
		"[scene.product]\nwidth = \"40 mm\"\ndepth = \"30 mm\"\n": func(t *testing.T, s shot.Shot) {
			assert.False(t, s.Scene.Product.Radius.Given, "a box has none")
		},
		"[rig]\nfile = \"mine.toml\"\n[take]\nrounds = 2\n": func(t *testing.T, s shot.Shot) {
			assert.Equal(t, []any{"mine.toml", "", 2}, []any{s.RigFile, s.RigFrom, s.Rounds}, "its file is seen from the shot")
		},
		"[scene.product]\nwithout = true\n": func(t *testing.T, s shot.Shot) {
			assert.False(t, s.Scene.Product.Radius.Given)
		},
		"[rig]\n[rig.axis.rail]\ntravel = [\"0 mm\", \"400 mm\"]\nletter = \"X\"\nspeed = \"400 mm/s\"\nacceleration = \"3000 mm/s2\"\nbelt = { pitch = \"2 mm\", teeth = 20 }\nmotor-steps = 200\nmicrosteps = 16\n[rig.axis.table]\nkind = \"rotary\"\ntravel = \"endless\"\nletter = \"Y\"\nspeed = \"90 deg/s\"\nacceleration = \"180 deg/s2\"\ngear = \"90:1\"\nmotor-steps = 200\nmicrosteps = 16\n": func(t *testing.T, s shot.Shot) {
			assert.NotNil(t, s.Rig, "a rig of the shot's own")
			assert.Empty(t, s.RigFile)
		},
	} {
		t.Run(besides, func(t *testing.T) {
			s, err := shotOn(besides).decode("a.toml")
			require.NoError(t, err)
			check(t, s)
		})
	}
}

// A pull of a set-up is taken out, or what it says in part.
func TestWithoutThePullOfASetUp(t *testing.T) {
	on := func(besides string) scene.Lens {
		f := shotOn(besides)
		f["table.toml"] += "[camera.pull]\nhand = \"left\"\nkeys = [{ at = \"0 frames\", focus = \"409 mm\" }, { at = \"60 frames\", focus = \"349 mm\" }]\n"
		f["table.toml"] = strings.Replace(f["table.toml"], "focus    = \"380 mm\"\n", "", 1)
		s, err := f.decode("a.toml")
		require.NoError(t, err)
		return s.Scene.Lens
	}
	require.NotNil(t, on("").Pull)
	assert.Len(t, on("").Pull.Marks, 2)
	assert.Nil(t, on("[camera.pull]\nwithout = true\n").Pull)
	follows := on("[camera.pull]\nwithout = [\"keys\"]\nfollow = \"product\"\n").Pull
	assert.True(t, follows.Product)
	assert.Equal(t, "left", follows.Hand)
}

// Set-ups lie over each other: a later one over an earlier one, one over those that it
// names, and each once.
func TestSetUpsOverSetUps(t *testing.T) {
	f := folder{
		"a.toml":          "setup = [\"sub/key.toml\", \"sub/fill.toml\"]\n" + moves,
		"sub/key.toml":    "set-up = \"Key\"\nsetup = \"../room.toml\"\n[camera]\niso = 200\naperture = \"f/4\"\n",
		"sub/fill.toml":   "set-up = \"Fill\"\nsetup = \"../room.toml\"\n[camera]\naperture = \"f/8\"\n",
		"room.toml":       "set-up = \"Room\"\n[rig]\nfile = \"bench.toml\"\n[clock]\nplayback = 24\n[camera]\niso = 100\naperture = \"f/2\"\nuse = \"shelf/body.toml\"\n",
		"shelf/body.toml": body,
	}
	s, err := f.decode("a.toml")
	require.NoError(t, err)
	assert.Equal(t, 200.0, s.Scene.Camera.ISO.Value, "the room lies under both, once: not again over the key")
	assert.Equal(t, 8.0, s.Scene.Lens.Aperture.Value)
	assert.Equal(t, 36.0, s.Scene.Camera.SensorWidth.Value, "the shelf is seen from the room")
	var names []string
	for _, f := range s.Laid.Files {
		names = append(names, f.Name)
	}
	assert.Equal(t, []string{"room.toml", "sub/key.toml", "sub/fill.toml", "shelf/body.toml"}, names)
}

// One saying of a lamp's level takes the place of another, whichever they are.
func TestALampsLevelSaidInAnotherWay(t *testing.T) {
	ways := map[string]string{
		"level": "level = \"50 %\"\n", "fade": "fade = { from = \"0 %\", to = \"80 %\" }\n",
		"keys": "keys = [{ at = \"0 frames\", level = \"10 %\" }, { at = \"72 frames\", level = \"90 %\" }]\nseam = \"closed\"\n",
	}
	for under, below := range ways {
		for over, above := range ways {
			f := shotOn("[[scene.lamps]]\nname = \"fill\"\n" + above)
			f["table.toml"] += below
			s, err := f.decode("a.toml")
			if assert.NoError(t, err, "%s over %s", over, under) {
				alone := shotOn("[[scene.lamps]]\nname = \"fill\"\n" + above)
				want, err := alone.decode("a.toml")
				require.NoError(t, err)
				assert.Equal(t, want.Scene.Lamps[1], s.Scene.Lamps[1], "%s over %s", over, under)
			}
		}
	}
}

// A sequence's set-ups lie under a shot that names none.
func TestUnderASequence(t *testing.T) {
	f := shotOn("")
	files := f.files()
	files.Under = source.Texts{Items: []source.Text{{Text: "other.toml", Line: 3, Column: 9, Set: true}}, Single: true, Set: true}.In("day/clip.toml")
	_, err := files.Decode("a.toml", []byte(f["a.toml"]), nil)
	require.NoError(t, err, "it names one itself")
	_, err = files.Decode("a.toml", []byte("setup = []\n"+moves), nil)
	require.ErrorContains(t, err, "clock.playback is missing", "it says that it has none")
	assert.NotContains(t, err.Error(), "other.toml")
	_, err = files.Decode("a.toml", []byte(moves), nil)
	require.ErrorContains(t, err, `day/clip.toml:3:9: setup "other.toml" is a file that cannot be used: there is no file day/other.toml`)
	assert.Equal(t, 1, strings.Count(err.Error(), "\n")+1, "what it may say is not told to be missing")
	f["day/other.toml"] = strings.ReplaceAll(f["table.toml"], "shelf/", "../shelf/")
	s, err := files.Decode("a.toml", []byte(moves), nil)
	require.NoError(t, err)
	assert.Equal(t, "day/other.toml", s.RigFrom)
	assert.Equal(t, 50.0, s.Scene.Lens.FocalLength.Value)
}

// A value says where it stands, and what it stands over.
func TestEachValueKnowsItsPlace(t *testing.T) {
	s, err := shotOn("[camera]\naperture = \"f/16\"\n[[scene.lamps]]\nname = \"fill\"\nlevel = 0.5\n").decode("a.toml")
	require.NoError(t, err)
	at := map[string]string{}
	for _, v := range s.Laid.Values {
		at[v.Path] = v.Text.Text + " " + v.Text.Place().String()
		for _, b := range v.Below {
			at[v.Path] += " over " + b.Text + " " + b.Place().String()
		}
	}
	assert.Equal(t, "380 mm table.toml:12:12", at["camera.focus"])
	assert.Equal(t, "50 mm shelf/fifty.toml:2:16", at["camera.focal-length"])
	assert.Equal(t, "f/2, f/16 shelf/fifty.toml:4:1", at["camera.apertures"])
	assert.Equal(t, "f/16 :13:12 over f/11 table.toml:13:12", at["camera.aperture"])
	assert.Equal(t, "900 lm table.toml:28:12 over 3900 lm shelf/panel.toml:2:10", at["scene.lamps[2].lumens"])
	assert.NotContains(t, at, "axis.rail.from", "that is the shot's alone")
	for path, want := range map[string][2]string{
		"camera.focus":          {"table.toml", "camera.focus"},
		"camera.focal-length":   {"shelf/fifty.toml", "focal-length"},
		"scene.lamps[2].lumens": {"table.toml", "scene.lamps[2].lumens"},
		"scene.lamps[2].beam":   {"shelf/panel.toml", "beam"},
		"camera.aperture":       {},
		"camera.nothing":        {},
	} {
		file, local := s.Laid.Home(path)
		assert.Equal(t, want, [2]string{file, local}, path)
	}
	again, err := s.Changed(source.Override{Path: "camera.iso", Text: "400", Origin: "--iso"}, source.Override{Path: "camera.focus", Text: "300 mm", Origin: "--focus"})
	require.NoError(t, err)
	assert.Equal(t, []float64{300, 400, 50}, []float64{again.Scene.Lens.Focus.Value, again.Scene.Camera.ISO.Value, again.Scene.Lens.FocalLength.Value})
	assert.Equal(t, 380.0, s.Scene.Lens.Focus.Value)
}

// A value is written into the shot, whether it stands there or under it, and the shot
// then says so. Every other byte stays.
func TestAValueIsWrittenOverASetUp(t *testing.T) {
	for _, x := range []struct{ besides, path, value, want string }{
		{"", "camera.aperture", "f/4", "\n[camera]\naperture = \"f/4\"\n"},
		{"[camera]\niso = 3 # mine\n", "camera.aperture", "f/4", "[camera]\naperture = \"f/4\"\niso = 3 # mine\n"},
		{"[camera]\naperture = 8 # mine\n", "camera.aperture", "4", "[camera]\naperture = 4 # mine\n"},
		{"", "scene.lamps[2].beam", "20 deg", "\n[[scene.lamps]]\nname = \"fill\"\nbeam = \"20 deg\"\n"},
		{"[[scene.lamps]]\nname = \"rim\"\n", "scene.lamps[2].level", "20 %", "[[scene.lamps]]\nname = \"rim\"\n\n[[scene.lamps]]\nname = \"fill\"\nlevel = \"20 %\"\n"},
		{"[[scene.lamps]]\nname = \"rim\"\n", "scene.lamps[3].level", "20 %", "[[scene.lamps]]\nlevel = \"20 %\"\nname = \"rim\"\n"},
		{"[[scene.lamps]]\nkelvin = 3000\n", "scene.lamps[3].kelvin", "4000", "[[scene.lamps]]\nkelvin = 4000\n"},
		{"[[scene.lamps]]\nname = \"fill\"\n", "scene.lamps[2].level", "20 %", "[[scene.lamps]]\nlevel = \"20 %\"\nname = \"fill\"\n"},
		{"", "clock.loop", "3 s", ""},
	} {
		f := shotOn(x.besides)
		s, err := f.decode("a.toml")
		require.NoError(t, err)
		out, err := s.Laid.Set([]byte(f["a.toml"]), x.path, x.value)
		require.NoError(t, err, x.path)
		if x.want != "" {
			assert.Equal(t, strings.TrimSuffix(f["a.toml"], x.besides)+x.want, string(out))
		}
		again, err := f.files().Decode("a.toml", out, nil)
		require.NoError(t, err)
		found := false
		for _, v := range again.Laid.Values {
			if v.Path == x.path {
				found = v.Text.Text == x.value && v.Text.File == ""
			}
		}
		file, _ := again.Laid.Home(x.path)
		assert.Empty(t, file)
		if file, _ := s.Laid.Home(x.path); file != "" {
			assert.True(t, found, "it stands over %s now", file)
		}
	}
	s, err := shotOn("").decode("a.toml")
	require.NoError(t, err)
	_, err = s.Laid.Set([]byte("scene = { lamps = [] }\n"), "scene.lamps[1].level", "20 %")
	require.Error(t, err, "a list within one line cannot be added to")
}

// A focus that stays takes the place of one that is pulled, and the other way round.
func TestAFocusSaidInAnotherWay(t *testing.T) {
	const pull = "[camera.pull]\nhand = \"left\"\nkeys = [{ at = \"0 frames\", focus = \"400 mm\" }, { at = \"72 frames\", focus = \"380 mm\" }]\n"
	s, err := shotOn(pull).decode("a.toml")
	require.NoError(t, err)
	assert.NotNil(t, s.Scene.Lens.Pull)
	f := shotOn("[camera]\nfocus = \"300 mm\"\n")
	f["table.toml"] = strings.Replace(f["table.toml"], "focus    = \"380 mm\"\n", "", 1) + pull
	s, err = f.decode("a.toml")
	require.NoError(t, err)
	assert.Nil(t, s.Scene.Lens.Pull)
	assert.Equal(t, 300.0, s.Scene.Lens.Focus.Value)
}
