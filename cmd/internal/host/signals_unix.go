//go:build unix

package host

import (
	"os"
	"syscall"
)

var (
	// endings would end the program without a word.
	endings = []os.Signal{syscall.SIGABRT, syscall.SIGALRM, syscall.SIGUSR1, syscall.SIGUSR2, syscall.SIGXCPU}
	// suspending is what Ctrl-Z sends.
	suspending = []os.Signal{syscall.SIGTSTP}
	// failures are told by writes that fail, too: a pipe that nobody reads, a file
	// that must not grow.
	failures = []os.Signal{syscall.SIGPIPE, syscall.SIGXFSZ}
)
