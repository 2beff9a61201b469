package cli_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/acquaint"
	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/cli/measure"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/session"
	"seamrail/export/drive/wirelog"
	"seamrail/motion/plan/sample/many"
)

// recordedWires is where records of the wire lie. What is put there is a test.
var recordedWires = filepath.Join("..", "..", "..", "testdata", "wire")

// virtualWire begins the name of a record of a rig of software, which shows nothing of
// any board; -update makes it anew.
const virtualWire = "virtual-"

func TestRecordedBoards(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(recordedWires, "*.wire"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(names), 3)
	for _, name := range names {
		name, err := filepath.Abs(name)
		require.NoError(t, err)
		t.Run(filepath.Base(name), func(t *testing.T) {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			rec, err := wirelog.Read(name, bytes.NewReader(text))
			require.NoError(t, err)
			require.Equal(t, rec.Virtual, strings.HasPrefix(filepath.Base(name), virtualWire), "what is of software is called so, and nothing else")
			require.True(t, rec.Whole())
			if len(rec.Words) == 1 && rec.Words[0] == "connect" {
				kind, err := acquaint.Play(wirelog.NewPlayback(rec, time.Unix(0, 0)), rec.Baud)
				require.NoError(t, err)
				require.Equal(t, rec.Kind, kind)
				return
			}
			if rec.Words[0] == "jog" {
				jogsAgain(t, rec)
				return
			}
			if rec.Words[0] == "measure" {
				measuresAgain(t, rec)
				return
			}
			o := unpacked(t, rec)
			if *update && rec.Virtual {
				rec = again(t, name, rec)
			}
			plays(t, o, rec)
		})
	}
}

// jogsAgain holds a rig moved by hand to its record.
func jogsAgain(t *testing.T, rec wirelog.Record) {
	unpack(t, rec)
	var o *cli.JogOptions
	c := cli.NewCmdJog(command.Streams{}, func(x *cli.JogOptions) error { o = x; return nil })
	c.SetArgs(rec.Words[1:])
	require.NoError(t, c.Execute())
	j, err := o.Job()
	require.NoError(t, err)
	require.NotEmpty(t, rec.Runs)
	assert.NoError(t, session.Play(o.Options, j, rec))
}

// measuresAgain holds a walk of measuring to its record.
func measuresAgain(t *testing.T, rec wirelog.Record) {
	unpack(t, rec)
	var o *measure.Options
	c := measure.NewCmdMeasure(command.Streams{}, func(x *measure.Options) error { o = x; return nil })
	c.SetArgs(rec.Words[1:])
	require.NoError(t, c.Execute())
	assert.NoError(t, o.Play(rec))
}

// A walk of measuring is kept with its answers, and whoever sends it has sent what it takes
// to go it again.
func TestAMeasurementPlaysBack(t *testing.T) {
	for i, kind := range []string{"buffered", "lockstep", "step-player"} {
		for k, what := range []string{"rail backlash", "rail speed --answer check=mark --answer from=150mm --answer to=230mm --answer most=50mm/s", "table turn"} {
			if i != k && !many.Asked() {
				continue // each kind and each walk, once
			}
			t.Run(kind+" "+what, func(t *testing.T) {
				t.Chdir(t.TempDir())
				runs(t, "new", "a", "--controller", kind)
				rec, _ := kept(t, "m.wire", slices.Concat([]string{"measure", filepath.Join("a", "bench-rail.toml")}, strings.Fields(what), []string{"--virtual", "--write", "--keep-wire", "m.wire"})...)
				require.Equal(t, append([]string{"measure", "bench-rail.toml"}, strings.Fields(what)[:2]...), rec.Words[:4])
				measuresAgain(t, rec)
			})
		}
	}
}

// A jog is kept with what was held, so that whoever has a board can send how that jogs.
func TestAJogPlaysBack(t *testing.T) {
	for _, kind := range []string{"buffered", "lockstep", "step-player"} {
		for _, of := range []string{"lantern.toml", "bench-rail.toml"} {
			t.Run(kind+" "+of, func(t *testing.T) {
				t.Chdir(t.TempDir())
				runs(t, "new", "a", "--controller", kind)
				rec, text := kept(t, "jog.wire", "jog", filepath.Join("a", of), "--virtual", "--fast", "--confirmed", "--hold", "rail + 300ms", "--keep-wire", "jog.wire")
				require.Equal(t, []string{"jog", of}, rec.Words)
				require.Contains(t, text, "? jog-hold ")
				jogsAgain(t, rec)
			})
		}
	}
}

// runs runs a command, which has to go well.
func runs(t *testing.T, args ...string) {
	var out bytes.Buffer
	require.Equal(t, exit.Fine, cli.Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &out}, args), out.String())
}

// kept runs a command that keeps its wire in a file, and is the record, and its text.
func kept(t *testing.T, file string, args ...string) (wirelog.Record, string) {
	runs(t, args...)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	rec, err := wirelog.Read(file, bytes.NewReader(text))
	require.NoError(t, err)
	require.True(t, rec.Whole())
	return rec, string(text)
}

// unpack makes a folder of the files of a record, and goes there.
func unpack(t *testing.T, rec wirelog.Record) {
	t.Chdir(t.TempDir())
	for _, f := range rec.Files {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.FromSlash(f.Name)), 0o700))
		require.NoError(t, os.WriteFile(filepath.FromSlash(f.Name), f.Text, 0o600))
	}
}

// unpacked is a command line as a record has it, in a folder with the files of the record.
func unpacked(t *testing.T, rec wirelog.Record) *cli.DriveOptions {
	unpack(t, rec)
	require.Equal(t, "drive", rec.Words[0])
	var o *cli.DriveOptions
	c := cli.NewCmdDrive(command.Streams{}, func(x *cli.DriveOptions) error { o = x; return nil })
	c.SetArgs(rec.Words[1:])
	require.NoError(t, c.Execute())
	o.Source = o.Shot.Source()
	return o
}

// plays holds the program to a record: it sends what was sent then, and ends as it did.
func plays(t *testing.T, o *cli.DriveOptions, rec wirelog.Record) {
	j, err := o.Source.Job(nil)
	require.NoError(t, err)
	require.NotEmpty(t, rec.Runs)
	assert.NoError(t, session.Play(o.Options, j, rec))
}

// again records a run of a rig of software anew.
func again(t *testing.T, name string, rec wirelog.Record) wirelog.Record {
	made := filepath.Join(t.TempDir(), "made.wire")
	args := append(append([]string{"drive"}, rec.Words[1:]...), "--virtual", "--fast", "--confirmed", "--count-in", "0", "--keep-wire", made)
	var out bytes.Buffer
	require.Equal(t, exit.Fine, cli.Run(command.Streams{In: strings.NewReader(""), Out: &out, Err: &out}, args), out.String())
	text, err := os.ReadFile(made)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(name, text, 0o600))
	rec, err = wirelog.Read(name, bytes.NewReader(text))
	require.NoError(t, err)
	return rec
}
