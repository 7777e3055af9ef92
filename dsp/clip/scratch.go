package clip

import (
	"errors"
	"os"
)

// scratch is a file in the folder for temporary ones. Where the system allows it has no
// name from the start, so that nothing is left behind however this process ends;
// elsewhere it is removed when closed.
type scratch struct {
	*os.File
	named bool
}

func newScratch() (*scratch, error) {
	f, err := os.CreateTemp("", "earshot-*.wav")
	if err != nil {
		return nil, err
	}
	return &scratch{f, os.Remove(f.Name()) != nil}, nil
}

// Close closes the file, and removes it where it has a name still.
func (s *scratch) Close() error {
	err := s.File.Close()
	if s.named {
		err = errors.Join(err, os.Remove(s.Name()))
	}
	return err
}
