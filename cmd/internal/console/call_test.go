package console_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/console"
	"seamrail/export/drive"
)

// A terminal hears every beat; a plain page is told the moment alone.
func TestCall(t *testing.T) {
	for live, want := range map[bool]string{
		true:  "\a1: pebble, left hand\n\aNOW: pebble, left hand\n",
		false: "NOW: pebble, left hand\n",
	} {
		var out bytes.Buffer
		p := console.New(console.Options{Out: &out, Live: live, Width: 80})
		p.Call(drive.Beat{Text: "pebble, left hand", Left: 1})
		p.Call(drive.Beat{Text: "pebble, left hand"})
		assert.Equal(t, want, out.String())
	}
}
