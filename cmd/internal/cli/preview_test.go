package cli_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli"
	"seamrail/cmd/internal/cli/command"
)

func TestPreviewParses(t *testing.T) {
	for _, c := range []struct {
		args []string
		want cli.PreviewOptions
	}{
		{nil, cli.PreviewOptions{Output: "preview.png", Every: 1, Stills: 4}},
		{[]string{"--seam"}, cli.PreviewOptions{Output: "seam.png", Every: 1, Stills: 4, Seam: true}},
		{[]string{"--seam", "-o", "s.png", "--stills", "2"}, cli.PreviewOptions{Output: "s.png", Every: 1, Stills: 2, Seam: true}},
		{[]string{"--width", "320", "--every", "3", "--tell-apart"}, cli.PreviewOptions{Output: "preview.png", Width: 320, Every: 3, Stills: 4, Apart: true}},
	} {
		var got cli.PreviewOptions
		cmd := cli.NewCmdPreview(command.Streams{}, func(o *cli.PreviewOptions) error { got = *o; return nil })
		require.NoError(t, parse(cmd, append([]string{"a.toml"}, c.args...)...))
		assert.Equal(t, "a.toml", got.Shot.Shot)
		got.Shot, got.Streams = command.ShotFlags{}, command.Streams{}
		assert.Equal(t, c.want, got)
	}
	cmd := cli.NewCmdPreview(command.Streams{}, nil)
	assert.Error(t, parse(cmd, "a.toml", "b.toml"))
}
