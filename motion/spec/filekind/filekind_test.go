package filekind_test

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/move"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

func TestKinds(t *testing.T) {
	for text, want := range map[string]filekind.Kind{
		"[clock]\nloop = \"6 s\"":                                       filekind.Shot,
		"shot = \"Lantern\"":                                            filekind.Shot,
		"[rig]\nfile = \"r.toml\"":                                      filekind.Shot,
		"[rig.axis.rail]\ntravel = \"endless\"":                         filekind.Shot,
		"[axis.rail]\nfrom = \"1 mm\"":                                  filekind.Shot,
		"[[cue]]\nat = \"1 s\"":                                         filekind.Shot,
		"[axis.rail]\nfrom = 1\ntravel = 2\n[clock]":                    filekind.Shot,
		"[controller]\nkind = \"buffered\"":                             filekind.Rig,
		"rig = \"Bench\"":                                               filekind.Rig,
		"[axis.rail]\nkind = \"linear\"":                                filekind.Rig,
		"[axis.rail]\ntravel = [\"0 mm\", \"4 mm\"]":                    filekind.Rig,
		"[stand.display]\nperiod = \"7 s\"":                             filekind.Rig,
		"[[shot]]\nfile = \"a.toml\"":                                   filekind.Sequence,
		"sequence = \"Clip\"":                                           filekind.Sequence,
		"[day]\nrig-change = \"1 min\"\n[card]\nsize = \"1 GB\"":        filekind.Sequence,
		"set-up = \"Table\"\n[camera]\n[scene]\n[rig]\n[clock]\n[take]": filekind.SetUp,
		"camera = \"Body\"\niso = 3":                                    filekind.Camera,
		"lens = \"Fifty\"":                                              filekind.Lens,
		"lamp = \"Panel\"\nlumens = 3":                                  filekind.Lamp,
		// Of two kinds, of none, or nothing that could be read.
		"set-up = \"Table\"\n[axis.rail]\nfrom = 1": filekind.Unknown,
		"camera = \"Body\"\nlens = \"Fifty\"":       filekind.Unknown,
		"[clock]\n[controller]":                     filekind.Unknown,
		"[[shot]]\nfile = \"a\"\n[clock]":           filekind.Unknown,
		"rig = \"Bench\"\n[scene]":                  filekind.Unknown,
		"[axis.rail]\nfrom = 1\ntravel = 2":         filekind.Unknown,
		"[axis.rail]\nspeed = \"1 mm/s\"":           filekind.Unknown,
		"clock = 3":                                 filekind.Unknown,
		"[lens]\nfocal = 3":                         filekind.Unknown,
		"":                                          filekind.Unknown,
		"not toml":                                  filekind.Unknown,
		"axis = 3\nshot = 3\nrig = 3\nsequence=3":   filekind.Unknown,
	} {
		assert.Equal(t, want, filekind.Of([]byte(text)), text)
	}
}

// Every file of the program's own is of its kind.
func TestOurOwnFiles(t *testing.T) {
	for pattern, want := range map[string]filekind.Kind{
		"../../../cmd/internal/starter/lantern.toml": filekind.Shot, "../../../cmd/internal/starter/bench-rail.toml": filekind.Rig,
		"../../../cmd/internal/starter/clip/clip.toml": filekind.Sequence, "../../../cmd/internal/starter/clip/p*.toml": filekind.Shot,
		"../../../testdata/shots/*.toml":                filekind.Shot,
		"../../../cmd/internal/starter/clip/table.toml": filekind.SetUp, "../../../cmd/internal/starter/clip/camera.toml": filekind.Camera,
		"../../../cmd/internal/starter/clip/lens.toml": filekind.Lens, "../../../testdata/reference/takes/*.rig.toml": filekind.Rig,
		"../../../testdata/reference/takes/*.shot.toml": filekind.Shot,
	} {
		names, err := filepath.Glob(filepath.FromSlash(pattern))
		require.NoError(t, err)
		require.NotEmpty(t, names, pattern)
		for _, name := range names {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			assert.Equal(t, want, filekind.Of(text), name)
		}
	}
}

// What is taken for a sign of one kind is a key of that kind, and of no other.
func TestSignsAreOfOneKind(t *testing.T) {
	keys := func(v any) map[string]bool {
		out := map[string]bool{}
		for _, k := range source.Keys(reflect.TypeOf(v)) {
			out[k.Key] = true
		}
		return out
	}
	top := map[filekind.Kind]map[string]bool{
		filekind.Shot: keys(shot.Raw{}), filekind.Rig: keys(rig.Raw{}), filekind.Sequence: keys(sequence.Raw{}),
	}
	for _, key := range []string{"clock", "take", "spin", "camera", "scene", "cue", "picture", "controller", "stand", "card", "day"} {
		is := filekind.Of([]byte("[" + key + "]"))
		for kind, all := range top {
			assert.Equal(t, kind == is, all[key], "%s is of %v", key, kind)
		}
	}
	moves, makes := keys(move.Raw{}), keys(rig.RawAxis{})
	for key := range moves {
		if is := filekind.Of([]byte("[axis.a]\n" + key + " = 1")); is != filekind.Unknown {
			assert.Equal(t, filekind.Shot, is, key)
			assert.False(t, makes[key], key)
		}
	}
	for key := range makes {
		if is := filekind.Of([]byte("[axis.a]\n" + key + " = 1")); is != filekind.Unknown {
			assert.Equal(t, filekind.Rig, is, key)
			assert.False(t, moves[key], key)
		}
	}
}

// A broken file is told by its first line that only one kind has; one that is whole is
// told as ever.
func TestLikely(t *testing.T) {
	for text, want := range map[string]filekind.Kind{
		"# notes\nshot = \"Lantern\n[clock]":            filekind.Shot,
		"[clock\nloop = \"6 s\"":                        filekind.Shot,
		"title = \n[scene.lens]\nx = 1":                 filekind.Shot,
		"[[cue]]\nat = ":                                filekind.Shot,
		"[rig]\nfile = \"r.toml":                        filekind.Shot,
		"[[shot]]\nfile = ":                             filekind.Sequence,
		"rig = \"Bench\nshot = \"x\"":                   filekind.Rig,
		"[controller]\nkind = buffered":                 filekind.Rig,
		"set-up = \"Table\n[camera]":                    filekind.SetUp,
		"[project]\nname = \"clock\n":                   filekind.Unknown,
		"see [clock]":                                   filekind.Unknown,
		"shots = \"x":                                   filekind.Unknown,
		"":                                              filekind.Unknown,
		"shot = \"Lantern\"":                            filekind.Shot,
		"rig = \"Bench\"\n[scene]\nheight = \"2 mm\"\n": filekind.Rig,
	} {
		assert.Equal(t, want, filekind.Likely([]byte(text)), text)
	}
}
