package atomicfile

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"syscall"

	"golang.org/x/sys/unix"

	"seamrail/cmd/internal/hold"
)

// exchange swaps two names in one step.
func (system) exchange(a, b string) error {
	if err := unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE); err != nil {
		return &os.LinkError{Op: "exchange", Old: a, New: b, Err: err}
	}
	return nil
}

// alike gives a folder the owner and the group of another.
func (system) alike(name string, old fs.FileInfo) error {
	made, err := os.Lstat(name)
	if err != nil {
		return err
	}
	was, is := old.Sys().(*syscall.Stat_t), made.Sys().(*syscall.Stat_t)
	if was.Uid == is.Uid && was.Gid == is.Gid {
		return nil
	}
	return os.Lchown(name, int(was.Uid), int(was.Gid))
}

// exchangeable tells whether another folder may take the place of this one
// without anybody missing it: it is not where something is mounted, has no lists
// of access or labels of its own, and nobody stands in it.
func exchangeable(dir string) bool {
	var s unix.Statx_t
	err := unix.Statx(unix.AT_FDCWD, dir, 0, 0, &s)
	if err != nil || s.Attributes&unix.STATX_ATTR_MOUNT_ROOT != 0 {
		return false
	}
	return !labelled(dir) && !stoodIn(dir)
}

// labelled tells whether a folder has attributes that a new one would lack. Those
// of the system's security are given by rule.
func labelled(dir string) bool {
	names := make([]byte, 1<<16)
	n, err := unix.Llistxattr(dir, names)
	if errors.Is(err, unix.ENOTSUP) {
		return false
	}
	if err != nil {
		return true
	}
	for name := range strings.SplitSeq(strings.TrimRight(string(names[:n]), "\x00"), "\x00") {
		if name != "" && !strings.HasPrefix(name, "security.") {
			return true
		}
	}
	return false
}

// stoodIn tells whether a program works in the folder, such as a shell, which would
// stand in a folder that is gone, or a page, which would save into it.
func stoodIn(dir string) bool {
	if !hold.Free(dir) {
		return true
	}
	processes, _ := os.ReadDir("/proc")
	for _, p := range processes {
		if at, err := os.Readlink("/proc/" + p.Name() + "/cwd"); err == nil && at == dir {
			return true
		}
	}
	return false
}
