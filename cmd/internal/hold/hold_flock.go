//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package hold

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// try holds an open file, or says at once why not.
func try(f *os.File) error { return lock(f, unix.LOCK_EX) }

// Stay says that this run works in a folder, as others may too, until the file is
// closed: nobody is then to put another in its place.
func Stay(folder *os.File) { _ = lock(folder, unix.LOCK_SH) }

// Free tells whether nobody stays in a folder.
func Free(folder string) bool {
	f, err := os.Open(folder)
	if err != nil {
		return false
	}
	defer func() { _ = f.Close() }()
	return !errors.Is(try(f), ErrHeld)
}

func lock(f *os.File, how int) error {
	for {
		err := unix.Flock(int(f.Fd()), how|unix.LOCK_NB)
		switch {
		case err == nil:
			return nil
		case errors.Is(err, unix.EINTR):
		case errors.Is(err, unix.EWOULDBLOCK):
			return ErrHeld
		case errors.Is(err, unix.ENOLCK), errors.Is(err, unix.ENOTSUP), errors.Is(err, unix.ENOSYS), errors.Is(err, unix.EINVAL):
			return errBlind
		default:
			return err
		}
	}
}

// Release lets go of a file that Wait holds.
func Release(f *os.File) { _ = unix.Flock(int(f.Fd()), unix.LOCK_UN) }
