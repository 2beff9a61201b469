package cli_test

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
)

// listed runs the ports command on ports that are made up.
func listed(t *testing.T, ports []host.PortFacts, failure error) (string, error) {
	t.Helper()
	var out bytes.Buffer
	var options *cli.PortsOptions
	s := command.Streams{Out: &out}
	require.NoError(t, parse(cli.NewCmdPorts(s, func(o *cli.PortsOptions) error { options = o; return nil })))
	require.NotNil(t, options.List)
	options.List = func() ([]host.PortFacts, error) { return ports, failure }
	err := cli.PortsRun(options)
	return out.String(), err
}

func TestPortsAreListedByName(t *testing.T) {
	out, err := listed(t, []host.PortFacts{
		{Name: "/dev/ttyB1", USB: true, Vendor: "12AB", Product: "00CD", Serial: "77", Maker: "Fernhollow", Title: "bench\x1b[2Jboard"},
		{Name: "/dev/ttyA0"},
	}, nil)
	require.NoError(t, err)
	assert.Equal(t, "Serial ports\n\n"+
		"  port        USB        serial number  what it says it is\n"+
		"  /dev/ttyA0  -          -              -\n"+
		"  /dev/ttyB1  12ab:00cd  77             Fernhollow bench [2Jboard\n", out)
}

func TestNoPortsIsSaid(t *testing.T) {
	out, err := listed(t, nil, nil)
	require.NoError(t, err)
	assert.Contains(t, out, "There is no serial port here.")
	assert.Contains(t, out, "seamrail drive --virtual")
}

func TestPortsThatCannotBeListed(t *testing.T) {
	_, err := listed(t, nil, errors.New("no bus"))
	assert.Equal(t, exit.Rig, exit.Code(err))
	assert.EqualError(t, err, "the system does not tell its serial ports: no bus")
}
