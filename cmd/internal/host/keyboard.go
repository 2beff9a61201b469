package host

import (
	"io"
	"os"
	"time"

	"golang.org/x/term"

	"seamrail/cmd/internal/deadman"
)

// Keyboard is a terminal that hands over each key as it is pressed. It owns a
// goroutine, which Close ends.
type Keyboard struct {
	file    *os.File
	screen  int // descriptor whose mode was changed
	before  *term.State
	waits   bool // whether a Read that waits can be ended
	stopped chan struct{}
	unguard func()
}

// terminalName is the terminal that a process belongs to, whatever its input
// is. Opened anew it has a waiting of its own, so that a Read can be ended
// without the mode of the shell's own input being changed.
const terminalName = "/dev/tty"

// NewKeyboard takes the terminal in over: keys are no longer echoed, collected
// to lines or turned into signals. Each read is given to press, on a goroutine
// of its own; gone is called there when the terminal is.
func NewKeyboard(in *os.File, press func([]byte), gone func()) (*Keyboard, error) {
	k := &Keyboard{file: in, screen: int(in.Fd()), stopped: make(chan struct{})}
	if f, err := os.OpenFile(terminalName, os.O_RDONLY, 0); err == nil {
		if f.SetReadDeadline(time.Time{}) == nil {
			k.file, k.waits = f, true
		} else {
			_ = f.Close()
		}
	}
	before, err := term.MakeRaw(k.screen)
	if err != nil {
		k.release()
		return nil, err
	}
	k.before = before
	k.unguard = deadman.OnPanic(func() { _ = term.Restore(k.screen, before) })
	deadman.Go(func() { k.read(press, gone) })
	return k, nil
}

func (k *Keyboard) release() {
	if k.waits {
		_ = k.file.Close()
	}
}

// keysAtOnce is far more than anyone presses between two reads.
const keysAtOnce = 256

func (k *Keyboard) read(press func([]byte), gone func()) {
	defer close(k.stopped)
	buf := make([]byte, keysAtOnce)
	for {
		n, err := k.file.Read(buf)
		if n > 0 {
			press(buf[:n])
		}
		if err != nil {
			if !k.closed(err) {
				gone()
			}
			return
		}
	}
}

// closed tells whether a read ended because of Close.
func (k *Keyboard) closed(err error) bool {
	return err != io.EOF && os.IsTimeout(err)
}

// Close gives the terminal back as it was, and waits for the goroutine where
// the system lets a waiting read be ended.
func (k *Keyboard) Close() error {
	if k.waits {
		_ = k.file.SetReadDeadline(time.Unix(1, 0))
		<-k.stopped
	}
	k.release()
	k.unguard()
	return term.Restore(k.screen, k.before)
}
