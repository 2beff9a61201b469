package newfiles

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// newFrom writes a shot and a rig, read from a board of the starter's rig that
// is changed, and returns the folder.
func newFrom(t *testing.T, change func(o *virtual.Options), args ...string) (dir string, err error) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "lantern")
	var options *Options
	s := command.Streams{Out: &bytes.Buffer{}}
	c := NewCmdNew(s, func(o *Options) error { options = o; return nil })
	c.SetArgs(append([]string{dir, "--port", "/dev/bench"}, args...))
	require.NoError(t, c.Execute())
	options.Streams.Err = &bytes.Buffer{}
	options.Read.Of.Dial = func(baud int) (drive.Wire, error) {
		r, _, err := rig.Decode(starter.RigName, starter.Rig())
		require.NoError(t, err)
		o := virtual.Of(r)
		o.Baud, o.HostBaud = 57600, baud
		o.Greeting = "Bench 7"
		if change == nil {
			return nil, errors.New("port /dev/bench is not there")
		}
		change(&o)
		return host.NewFast(virtual.New(o), nil, nil), nil
	}
	return dir, newRun(options)
}

func TestNewFromAPort(t *testing.T) {
	dir, err := newFrom(t, func(o *virtual.Options) { o.Axes[0].StepsPerUnit, o.Set[rig.IdleWait] = 100, 25 }, "--baud", "57600")
	require.NoError(t, err)
	text, err := os.ReadFile(filepath.Join(dir, "bench-rail.toml"))
	require.NoError(t, err)
	for _, want := range []string{"the controller at /dev/bench", `"100 per mm"`, `idle-delay         = "25 ms"`, "baud               = 57600", `greeting           = "Bench"`, "# read: $100"} {
		assert.Contains(t, string(text), want)
	}
}

// A board that cannot be read is the rig's fault, and nothing is written.
func TestNewFromAPortFails(t *testing.T) {
	for want, change := range map[string]func(o *virtual.Options){
		"port /dev/bench is not there":       nil,
		"silent: not a byte has come":        func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.FallSilent}} },
		"port lost: virtual port is gone":    func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.Vanish, At: 1e8}} },
		"garbled: bytes come that cannot be": func(o *virtual.Options) { o.Baud = 74880 },
	} {
		dir, err := newFrom(t, change)
		require.ErrorContains(t, err, want)
		require.ErrorContains(t, err, "nothing was written")
		assert.Equal(t, exit.Rig, exit.Code(err))
		assert.NoDirExists(t, dir)
	}
}

// What is there already is looked at first: the board is not even opened.
func TestNewFromAPortLooksFirst(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "rig.schema.json"), nil, 0o600))
	var options *Options
	c := NewCmdNew(command.Streams{}, func(o *Options) error { options = o; return nil })
	c.SetArgs([]string{dir, "--port", "/dev/bench"})
	require.NoError(t, c.Execute())
	options.Read.Of.Dial = func(int) (drive.Wire, error) { panic("opened") }
	assert.ErrorContains(t, newRun(options), "rig.schema.json is already there and nothing was written")
}

func TestNewWritesHereUnlessTold(t *testing.T) {
	var got *Options
	c := NewCmdNew(command.Streams{}, func(o *Options) error { got = o; return nil })
	c.SetArgs(nil)
	require.NoError(t, c.Execute())
	assert.Equal(t, ".", got.Dir)
}
