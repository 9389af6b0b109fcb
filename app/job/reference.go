package job

import (
	"fmt"

	"haunchbook.example/app/field"
)

const referenceHead = `# The job file

A job is a JSON file that a person can write, mail and keep in version control. The
window keeps jobs in its job book and reads and writes this file as well.

- **Lengths are strings with their unit**: "24'", "24'-6 1/2\"", "18\"",
  "7' 3/8\"", "7.25 m", "1066.8 mm". Only zero may go without. They are kept exactly.
- **A point** is [x, y]: X to the right, Y up.
- **Temperatures, wind, times** carry their unit too: "58 °F", "14 °C", "8 mph",
  "12 km/h", "07:30".
- Numbers of money and of volume steps may be written as 5 or "5".
- Depths and thicknesses are measured **from the top of the slab**.
- Volumes are in cubic yards for a job in feet and inches, in cubic meters for one in
  millimeters.
- What is left out is as the last column of the tables has it, or none, 0 or false.
- What lies outside of what the trade uses is asked about in the window, and taken.
- A field the program does not know is an error that names it; so is a field given
  twice, and every value that will not do, with its path, what was found and what
  would do.

[schema.json](schema.json) is the JSON Schema of the file, for editors that complete
and check it. This page and the schema are made from the program's table of fields.

## The fields

`

const referenceExample = "\n## A complete example\n\nThe demo job, as the program writes it:\n\n```json\n%s```\n"

// Reference gives the reference of the job file in Markdown, with an example.
func Reference(example Job) []byte {
	return fmt.Appendf([]byte(referenceHead+field.Reference()), referenceExample, example.Encode())
}

// Schema gives the JSON Schema of the job file.
func Schema() []byte { return field.Schema(Job{}, Version) }
