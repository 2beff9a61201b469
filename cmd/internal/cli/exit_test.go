package cli_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/cmd/internal/cli"
)

func TestCode(t *testing.T) {
	assert.Equal(t, 0, cli.Code(nil))
	assert.Equal(t, 1, cli.Code(fmt.Errorf("plan: %w", &cli.LimitError{Text: "too fast"})))
	assert.Equal(t, 2, cli.Code(errors.New("no such file")))
	assert.Equal(t, 2, cli.Code(&cli.UsageError{Err: errors.New("unknown flag")}))
	assert.Equal(t, 3, cli.Code(fmt.Errorf("pass 2: %w", &cli.RigError{Err: errors.New("port lost")})))
}
