//go:build !linux

package host

import "errors"

// become is for Linux alone.
func (u Urgency) become() error {
	if u == Ordinary {
		return nil
	}
	return errors.New("that is for Linux alone")
}
