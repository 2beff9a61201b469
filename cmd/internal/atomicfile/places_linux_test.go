package atomicfile

import (
	"os"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

func TestAFolderWithLabelsOfItsOwn(t *testing.T) {
	_, dir := prepared(t, map[string]string{"a": "old"}, false)
	if err := unix.Lsetxattr(dir, "user.colour", []byte("brass"), 0); err != nil {
		t.Skip("this file system has no labels")
	}
	assert.True(t, sameFolder(t, dir))
	assert.True(t, labelled("/proc/self/none"), "what cannot be known is not exchanged")
	assert.False(t, exchangeable("/proc/self/none"))
	assert.False(t, exchangeable("/proc"), "where something is mounted")
	assert.False(t, labelled("/proc"), "a system that has no labels")
}

// The folder of somebody else stays theirs.
func TestAFolderOfSomebodyElse(t *testing.T) {
	if os.Geteuid() != 0 {
		t.Skip("only root gives folders away")
	}
	_, dir := prepared(t, map[string]string{"a": "old"}, false)
	require.NoError(t, os.Chown(dir, 12345, 23456))
	assert.False(t, sameFolder(t, dir))
	info, err := os.Stat(dir)
	require.NoError(t, err)
	assert.Equal(t, uint32(12345), info.Sys().(*syscall.Stat_t).Uid)
	assert.Equal(t, uint32(23456), info.Sys().(*syscall.Stat_t).Gid)
	assert.Error(t, system{}.alike("none", info))
	assert.Error(t, system{}.exchange("none", dir))
}
