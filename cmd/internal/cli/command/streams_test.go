package command_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/cli/command"
)

// What COLUMNS says comes before what a terminal tells; what is no number says nothing,
// and what is no terminal has as many as are usual.
func TestHowWideALineIs(t *testing.T) {
	for says, want := range map[string]int{"100": 100, "": 0, "-3": 0, "wide": 0} {
		t.Setenv("COLUMNS", says)
		assert.Equal(t, want, command.System().Wide, says)
	}
	assert.Equal(t, 100, command.Streams{Wide: 100}.Columns(80))
	assert.Equal(t, 80, command.Streams{Out: &strings.Builder{}}.Columns(80))
}
