package setup_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// with is a day with one of its files changed.
func with(file, was, is string) folder {
	f := shotOn("")
	if was == "" {
		f[file] += is
		return f
	}
	f[file] = strings.Replace(f[file], was, is, 1)
	return f
}

// Each fault stands in the file that is wrong, at its place, and is the only one.
func TestFaults(t *testing.T) {
	for want, f := range map[string]folder{
		`a.toml:2:9: setup "tabel.toml" is a file that cannot be used: there is no file tabel.toml`:                                                       with("a.toml", "table.toml", "tabel.toml"),
		`a.toml:2:9: setup "" must be the name of a file; such as "table.toml"`:                                                                           with("a.toml", "table.toml", ""),
		`a.toml:2:24: setup[2] "./table.toml" is named twice; name it once, at its place: a later one lies over an earlier one`:                           with("a.toml", `"table.toml"`, `["table.toml", "./table.toml"]`),
		`a.toml:2:9: setup "shelf/body.toml" is a camera file; it takes a set-up file`:                                                                    with("a.toml", "table.toml", "shelf/body.toml"),
		`a.toml:2:9: setup "a.toml" leads back to where it came from: a.toml uses a.toml; take one of these names out`:                                    with("a.toml", "table.toml", "a.toml"),
		`table.toml:2:9: setup "table.toml" leads back to where it came from: a.toml uses table.toml, which uses table.toml; take one of these names out`: with("table.toml", "[clock]", "setup = \"table.toml\"\n[clock]"),
		`table.toml:1:1: set-up is missing; give it, such as set-up = "Fernhollow"`:                                                                       with("table.toml", `set-up = "Small table"`, ""),
		`table.toml:3:1: clock.loop belongs into a shot, and this is a set-up; write it into each shot that lies over this file`:                          with("table.toml", "capture", "loop = \"4 s\"\ncapture"),
		`table.toml:29:2: axis belongs into a shot, and this is a set-up; write it into each shot that lies over this file`:                               with("table.toml", "", "[axis.rail]\nat = \"3 mm\"\n"),
		`table.toml:8:1: rig.axis belongs into the rig's own file; name that here: file = "bench-rail.toml"`:                                              with("table.toml", "file = ", "axis = {}\nfile = "),
		`table.toml:12:1: camera.focs is not a key that means anything here; did you mean "focus"?`:                                                       with("table.toml", "focus   ", "focs   "),
		`table.toml:12:12: camera.focus "380 m/s" is a speed; it must be a length (mm, cm, m, in or ft), such as "240 mm"`:                                with("table.toml", "380 mm", "380 m/s"),
		`table.toml:13:12: camera.aperture f/22 must be from f/2 to f/16, which the lens has`:                                                             with("table.toml", "f/11", "f/22"),
		`table.toml:12:12: camera.focus 120 mm magnifies 1:1.4, which must be at most 1:2, the greatest magnification of the lens; stand farther away, or take a lens that goes nearer; of a lens whose focal length is less near, state the magnification in place of focus; rings of some 11 mm would do: extension`: with("table.toml", "380 mm", "120 mm"),
		`table.toml:10:12: camera.use "shelf/fifty.toml" is a lens file; it takes a camera file`:                                                 with("table.toml", "shelf/body", "shelf/fifty"),
		`table.toml:11:12: camera.lens "table.toml" is a set-up file; it takes a lens file`:                                                      with("table.toml", "shelf/fifty", "table"),
		`table.toml:22:12: scene.lamps[1].use "shelf/no.toml" is a file that cannot be used: there is no file shelf/no.toml`:                     with("table.toml", "shelf/panel", "shelf/no"),
		`shelf/fifty.toml:6:1: aperture is how it is set, and this file is what it is; write it under [camera] in the set-up or the shot`:        with("shelf/fifty.toml", "", "aperture = \"f/4\"\n"),
		`shelf/fifty.toml:2:16: camera.focal-length -50 mm must be above 0 and at most 1000000; 100 mm`:                                          with("shelf/fifty.toml", "50 mm", "-50 mm"),
		`shelf/panel.toml:5:1: distance is how it is set, and this file is what it is; write it under [[scene.lamps]] in the set-up or the shot`: with("shelf/panel.toml", "", "distance = 3\n"),
		`shelf/panel.toml:2:10: TOML: unexpected character U+0078 'x' at start of value`:                                                         with("shelf/panel.toml", "\"3900 lm\"", "x"),
		`a.toml:13:11: camera.without "isso" is in no file under this one; there are use, lens, focus, aperture`:                                 with("a.toml", "", "[camera]\nwithout = \"isso\"\n"),
		`a.toml:14:11: scene.lamps[3].without takes nothing out: no file under this one has one of the name "rim"; there are "key", "fill"`:      with("a.toml", "", "[[scene.lamps]]\nname = \"rim\"\nwithout = true\n"),
		`a.toml:13:11: camera.without "3" must be true, or a list of keys such as ["height"]`:                                                    with("a.toml", "", "[camera]\nwithout = 3\n"),
	} {
		t.Run(want, func(t *testing.T) {
			_, err := f.decode("a.toml")
			require.Error(t, err)
			assert.Equal(t, want, err.Error())
		})
	}
}

// Set-ups that know nothing of each other may not take two things from the shelf for one.
func TestAClash(t *testing.T) {
	f := shotOn("")
	f["a.toml"] = strings.Replace(f["a.toml"], `"table.toml"`, `["table.toml", "evening.toml"]`, 1)
	f["evening.toml"] = "set-up = \"Evening\"\n[[scene.lamps]]\nname = \"key\"\nuse = \"shelf/spot.toml\"\n"
	_, err := f.decode("a.toml")
	require.EqualError(t, err, `evening.toml:4:7: scene.lamps[1].use "shelf/spot.toml" is another than "shelf/panel.toml" of table.toml:22:12; `+
		`both lie under one file, and neither knows of the other; name one of them there, or take the other out with without = true`)
	same := strings.Replace(f["evening.toml"], "spot", "./panel", 1) + "lumens = 500\n"
	f["evening.toml"], same = same, f["evening.toml"]
	s, err := f.decode("a.toml")
	require.NoError(t, err, "it is the same lamp, however it is named")
	assert.Equal(t, 500.0, s.Scene.Lamps[0].Lumens.Value)
	f["evening.toml"] = same
	f["evening.toml"] = strings.Replace(f["evening.toml"], "use =", "without = true\nuse =", 1)
	_, err = f.decode("a.toml")
	require.NoError(t, err, "it says that it takes the other out")
	f["evening.toml"] = "set-up = \"Evening\"\nsetup = \"table.toml\"\n[[scene.lamps]]\nname = \"key\"\nuse = \"shelf/spot.toml\"\n"
	s, err = f.decode("a.toml")
	require.NoError(t, err, "it lies over the other one")
	assert.Equal(t, 1200.0, s.Scene.Lamps[0].Lumens.Value)
}

// Where lamps cannot be told apart by name, nothing is laid over one of them.
func TestNamesThatAreNotOne(t *testing.T) {
	f := shotOn("[[scene.lamps]]\nname = \"key\"\nlevel = 0.5\n[[scene.lamps]]\nname = \"key\"\nlevel = 0.2\n")
	_, err := f.decode("a.toml")
	require.ErrorContains(t, err, `a.toml:15:9: scene.lamps "key" is named twice here`)
	f = shotOn("[[scene.lamps]]\nname = \"key\"\nlevel = 0.5\n")
	f["table.toml"] = strings.Replace(f["table.toml"], `"fill"`, `"key"`, 1)
	_, err = f.decode("a.toml")
	require.ErrorContains(t, err, `scene.lamps "key" is the name of two in the files under this one`)
}

// Chains and heaps of files end.
func TestNoEnd(t *testing.T) {
	f := folder{"a.toml": "setup = \"0.toml\"\n" + moves}
	for i := range 100 {
		f[fmt.Sprintf("%d.toml", i)] = fmt.Sprintf("set-up = \"%d\"\nsetup = \"%d.toml\"\n", i, i+1)
	}
	_, err := f.decode("a.toml")
	require.ErrorContains(t, err, "more than 16 set-ups name each other in turn")
	assert.Equal(t, 0, strings.Count(err.Error(), "\n"), err)
	many := make([]string, 100)
	for i := range many {
		many[i] = fmt.Sprintf("%q", fmt.Sprintf("%d.toml", i))
		f[fmt.Sprintf("%d.toml", i)] = "set-up = \"x\"\n"
	}
	f["a.toml"] = "setup = [" + strings.Join(many, ", ") + "]\n" + moves
	_, err = f.decode("a.toml")
	require.ErrorContains(t, err, "more than 64 files lie under the shot")
}

// The way back is told from file to file.
func TestACircle(t *testing.T) {
	f := folder{
		"a.toml":   "setup = \"x/1.toml\"\n" + moves,
		"x/1.toml": "set-up = \"1\"\nsetup = [\"2.toml\"]\n", "x/2.toml": "set-up = \"2\"\nsetup = \"../3.toml\"\n", "3.toml": "set-up = \"3\"\nsetup = \"x/1.toml\"\n",
	}
	_, err := f.decode("a.toml")
	require.ErrorContains(t, err, `3.toml:2:9: setup "x/1.toml" leads back to where it came from: `+
		`a.toml uses x/1.toml, which uses x/2.toml, which uses 3.toml, which uses x/1.toml`)
}
