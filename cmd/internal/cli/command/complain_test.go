package command

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// On a terminal no word of an error is broken, and every line of it begins as ours; what
// is read by a program has the lines that the error has.
func TestErrorsFitTheTerminal(t *testing.T) {
	err := errors.New("the answers ended; --answer mark-a=... gives it\nno more")
	assert.Equal(t, "seamrail: the answers ended; --answer mark-a=... gives it\nseamrail: no more\n", complaint(err, 0))
	assert.Equal(t, "seamrail: the answers ended; --answer\n          mark-a=... gives it\nseamrail: no more\n", complaint(err, 40))
	assert.Contains(t, complaint(err, 1), "          mark-a=...\n")
	var b strings.Builder
	Complain(&b, err)
	assert.Equal(t, complaint(err, 0), b.String(), "what is no terminal has no width")
}
