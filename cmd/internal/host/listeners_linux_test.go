package host_test

import (
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/host"
)

// That nobody reads any more is seen without a word being printed, and told once.
func TestNobodyReads(t *testing.T) {
	files := make([]*os.File, 2)
	readers := make([]*os.File, 2)
	for i := range files {
		var err error
		readers[i], files[i], err = os.Pipe()
		require.NoError(t, err)
		defer files[i].Close()
		defer readers[i].Close()
	}
	told := make(chan error, 2)
	release := host.Listeners(files, func(err error) { told <- err })
	defer release()
	select {
	case err := <-told:
		t.Fatal(err)
	case <-time.After(20 * time.Millisecond):
	}
	require.NoError(t, readers[1].Close())
	select {
	case err := <-told:
		assert.ErrorContains(t, err, "nobody reads")
	case <-time.After(soon):
		t.Fatal("not told")
	}
}

func TestListeningEnds(t *testing.T) {
	release := host.Listeners([]*os.File{os.Stdout, os.Stderr}, func(err error) { t.Error(err) })
	release()
	release()
}
