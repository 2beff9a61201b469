package acquaint

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

func untold(string) {}

func rigWith(t *testing.T, kind rig.ControllerKind) *rig.Rig {
	r, _, err := rig.Decode(starter.RigName, starter.RigWith(kind))
	require.NoError(t, err)
	return &r
}

// Every kind that is driven is met as a rig made of software, and what is written of it
// is understood.
func TestEveryKind(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		var told []string
		b, err := Meet(Options{Virtual: true, Like: rigWith(t, kind)}, func(s string) { told = append(told, s) })
		require.NoError(t, err)
		assert.Equal(t, kind, b.Kind)
		assert.Equal(t, "a rig made of software", b.From)
		assert.Contains(t, told, "115200 baud: listening")
		_, _, err = rig.Decode("f", rigfile.File(b))
		assert.NoError(t, err)
	}
	_, err := Meet(Options{Virtual: true, Like: rigWith(t, rig.TwoEnds)}, untold)
	assert.ErrorContains(t, err, "nothing is sent to it, and nothing answers")
	assert.Equal(t, exit.Usage, exit.Code(err))
}

// What is said where nobody answers is what to do about what was seen.
func TestMishaps(t *testing.T) {
	for mishap, want := range map[string][]string{
		"silent":    {"silent: not a byte has come", "tried were 115200, 250000, 57600, 38400, 230400, 19200, 9600 baud", "is the board powered", "Some only charge", "boot loader"},
		"speed":     {"garbled: bytes come that cannot be read", "--baud N"},
		"unplugged": {"port lost: ", "it was unplugged"},
		"stranger":  {`wrong controller: at 115200 baud it says "LAMP 4 READY"`, "another kind of machine"},
	} {
		_, err := Meet(Options{Virtual: true, Mishap: mishap}, untold)
		require.Error(t, err, mishap)
		assert.Equal(t, exit.Rig, exit.Code(err))
		for _, w := range want {
			assert.ErrorContains(t, err, w, mishap)
		}
	}
	assert.Len(t, Mishaps(), 4)
	_, err := Meet(Options{Virtual: true, Baud: 9600}, untold)
	assert.ErrorContains(t, err, "tried were 9600 baud")
}

// A port that does not open says who has it, or how to be let in, or what there is.
func TestPortsThatDoNotOpen(t *testing.T) {
	ports := func() ([]host.PortFacts, error) { return []host.PortFacts{{Name: "/dev/ttyB1"}}, nil }
	_, err := Meet(Options{Port: "/dev/no-such-port", Ports: ports}, untold)
	assert.ErrorContains(t, err, "port /dev/no-such-port is not there")
	assert.ErrorContains(t, err, "- there is /dev/ttyB1")
	assert.Equal(t, exit.Rig, exit.Code(err))
	_, err = Meet(Options{Port: "/dev/null", Ports: func() ([]host.PortFacts, error) { return nil, nil }}, untold)
	assert.ErrorContains(t, err, "is not a serial port")
	assert.ErrorContains(t, err, "there is no serial port here at all")
	assert.Empty(t, Options{Ports: func() ([]host.PortFacts, error) { return nil, errors.New("no") }}.thereIs())
	refused := func(trouble host.Trouble) string {
		_, err := Meet(Options{Port: "/dev/no-such-port", Open: func(string, int) (host.Port, error) { return nil, &host.OpenError{Trouble: trouble} }}, untold)
		require.Error(t, err)
		return err.Error()
	}
	assert.Contains(t, refused(host.Busy), "close whatever talks to the board")
	assert.Contains(t, refused(host.BadSpeed), "--baud names the one speed")
	assert.Contains(t, refused(host.Denied), "group")
	assert.NotContains(t, refused(host.Unknown), "\n")
}

func TestPermission(t *testing.T) {
	for _, c := range []struct{ system, group, want string }{
		{"linux", "dialout", `it belongs to the group dialout: join it with "sudo usermod -a -G dialout ann"`},
		{"linux", "root", "a rule of udev"},
		{"linux", "", "often dialout"},
		{"darwin", "wheel", "/dev/cu."},
		{"windows", "", "a driver is missing"},
	} {
		assert.Contains(t, permission(c.system, c.group, "ann")[0], c.want)
	}
}

// A port in our time is opened anew at each speed, and closed.
func TestAPortOfMetal(t *testing.T) {
	r, _, err := rig.Decode("f", starter.Rig())
	require.NoError(t, err)
	o := virtual.Of(r)
	o.BootSeconds, o.Greeting, o.Baud = 0.1, "Bench", 0
	var bauds []int
	b, err := Meet(Options{Port: "/dev/no-such-port", Open: func(_ string, baud int) (host.Port, error) {
		bauds = append(bauds, baud)
		return virtual.NewPort(virtual.New(o), 50), nil
	}}, untold)
	require.NoError(t, err)
	assert.Equal(t, []int{115200}, bauds)
	assert.Equal(t, "the controller at /dev/no-such-port", b.From)
}
