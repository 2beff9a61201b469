//go:build !linux

package atomicfile

import (
	"errors"
	"io/fs"
)

// exchange is what this system has no one step for.
func (system) exchange(string, string) error { return errors.ErrUnsupported }

func (system) alike(string, fs.FileInfo) error { return errors.ErrUnsupported }

func exchangeable(string) bool { return false }
