package hold_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/hold"
)

func TestOneHoldsAtATime(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lock")
	first, err := hold.Take(path)
	require.NoError(t, err)
	if !first.Sure {
		t.Skip("this file system has no locks")
	}
	_, err = hold.Take(path)
	assert.ErrorIs(t, err, hold.ErrHeld)
	_, err = hold.Existing(path)
	assert.ErrorIs(t, err, hold.ErrHeld)
	first.Drop()
	assert.NoFileExists(t, path)
	_, err = hold.Existing(path)
	assert.ErrorIs(t, err, os.ErrNotExist)
	second, err := hold.Take(path)
	require.NoError(t, err)
	second.Close()
	assert.FileExists(t, path)
	third, err := hold.Existing(path)
	require.NoError(t, err)
	third.Drop()
}

func TestAHoldThatCannotBeTakenSaysWhy(t *testing.T) {
	_, err := hold.Take(filepath.Join(t.TempDir(), "none", "lock"))
	assert.ErrorIs(t, err, os.ErrNotExist)
}

func TestAFolderThatTakesNoFilesSaysSo(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("the superuser may write anywhere")
	}
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o500))
	_, err := hold.Take(filepath.Join(dir, "lock"))
	assert.ErrorIs(t, err, os.ErrPermission)
}

func TestWaitingEnds(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log")
	open := func() *os.File {
		f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
		require.NoError(t, err)
		t.Cleanup(func() { _ = f.Close() })
		return f
	}
	a, b := open(), open()
	require.NoError(t, hold.Wait(a, 0))
	if h, err := hold.Existing(path); err == nil && !h.Sure {
		t.Skip("this file system has no locks")
	}
	assert.ErrorIs(t, hold.Wait(b, 3*time.Millisecond), hold.ErrHeld)
	hold.Release(a)
	assert.NoError(t, hold.Wait(b, 0))
}

func TestSeveralStayInAFolder(t *testing.T) {
	dir := t.TempDir()
	require.True(t, hold.Free(dir))
	var stay [2]*os.File
	for i := range stay {
		var err error
		stay[i], err = os.Open(dir)
		require.NoError(t, err)
		hold.Stay(stay[i])
	}
	if hold.Free(dir) {
		t.Skip("this file system has no locks")
	}
	require.NoError(t, stay[0].Close())
	assert.False(t, hold.Free(dir), "one is still there")
	require.NoError(t, stay[1].Close())
	assert.True(t, hold.Free(dir))
}

func TestNobodyIsAskedOfAFolderThatIsNotThere(t *testing.T) {
	assert.False(t, hold.Free(filepath.Join(t.TempDir(), "none")))
}

// What is locked against writing can be held all the same: the folder says who may
// take it away.
func TestWhatMayOnlyBeReadIsHeld(t *testing.T) {
	path := filepath.Join(t.TempDir(), "part")
	require.NoError(t, os.WriteFile(path, nil, 0o400))
	h, err := hold.Existing(path)
	require.NoError(t, err)
	h.Drop()
	assert.NoFileExists(t, path)
}
