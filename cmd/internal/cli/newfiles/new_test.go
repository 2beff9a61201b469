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
	"seamrail/cmd/internal/session"
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
	options.Read.Open = func(r rig.Rig) (session.World, error) {
		o := virtual.Of(r)
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
	for _, want := range []string{"the controller at /dev/bench", `"100 per mm"`, `idle-delay         = "25 ms"`, "baud               = 57600", `greeting           = "Bench"`} {
		assert.Contains(t, string(text), want)
	}
}

// A board that cannot be read is the rig's fault, and nothing is written.
func TestNewFromAPortFails(t *testing.T) {
	for want, change := range map[string]func(o *virtual.Options){
		"port /dev/bench is not there; nothing was written":                 nil,
		"silent: no answer to an empty line within 1s; nothing was written": func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.FallSilent}} },
		"port lost: virtual port is gone; nothing was written":              func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.Vanish, At: 1e8}} },
		"line refused: error:1 on line 1, \"$$\"; nothing was written":      func(o *virtual.Options) { o.SettingsLine, o.StartsLocked = "$S", false },
		"the controller was read, but it prints no steps, speed and acceleration of any axis ($100, $110, $120 and on); nothing was written": func(o *virtual.Options) {
			o.Names, o.Others = rig.SettingNames{}, nil
			for i := range o.Axes {
				o.Axes[i].StepsName, o.Axes[i].SpeedName, o.Axes[i].AccelerationName, o.Axes[i].TravelName = "", "", "", ""
			}
		},
	} {
		dir, err := newFrom(t, change)
		require.EqualError(t, err, want)
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
	options.Read.Open = func(rig.Rig) (session.World, error) { panic("opened") }
	assert.ErrorContains(t, newRun(options), "rig.schema.json is already there and nothing was written")
}

func TestNewWritesHereUnlessTold(t *testing.T) {
	var got *Options
	c := NewCmdNew(command.Streams{}, func(o *Options) error { got = o; return nil })
	c.SetArgs(nil)
	require.NoError(t, c.Execute())
	assert.Equal(t, ".", got.Dir)
}
