package exit_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/exit"
)

func TestCode(t *testing.T) {
	assert.Equal(t, 0, exit.Code(nil))
	assert.Equal(t, 1, exit.Code(fmt.Errorf("plan: %w", exit.Limited("too fast"))))
	assert.Equal(t, 2, exit.Code(errors.New("no such file")))
	assert.Equal(t, 2, exit.Code(exit.Misused("unknown flag")))
	assert.Equal(t, 3, exit.Code(fmt.Errorf("pass 2: %w", exit.Failed("port lost"))))
}
