package folder

import (
	"errors"
	"os"

	"earshot/cmd/internal/fault"
	"earshot/cmd/internal/files"
	"earshot/report"
)

// ReportFolder is where a drawer's report lies, below it.
const ReportFolder = "report"

// openReport makes the folder of the report, keeps others from writing there and
// clears away what a run that was killed left half written.
func openReport(dir string) (unlock func(), err error) {
	if info, err := os.Lstat(dir); err == nil && !info.IsDir() {
		return nil, fault.File("cannot-write", dir, "the report cannot be written", errors.New("there is something else of that name"), "move it away")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fault.CannotWrite(dir, err)
	}
	unlock, err = files.Lock(dir)
	if errors.Is(err, files.ErrLocked) {
		return nil, fault.New(report.Failure{Code: "in-use", File: dir, Message: "another earshot is at work on this drawer", Hint: "wait until it is done, or stop it"}, err)
	}
	if err != nil {
		return nil, fault.CannotWrite(dir, err)
	}
	files.ClearHalfWritten(dir)
	return unlock, nil
}
