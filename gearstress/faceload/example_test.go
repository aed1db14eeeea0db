package faceload_test

import (
	"fmt"

	"layshaft/gearstress/faceload"
)

// Two gears 18 mm wide on rigid shafts, 900 N/mm, with a helix error of 0.09 mm across the face.
func Example() {
	const slices, face = 21, 18.0
	mesh := faceload.Mesh{
		Slices: slices, Face: face, Stiffness: 15000, Force: 16200,
		Gap: faceload.Gap(slices, face, faceload.LeadError(face, 0.09)),
	}
	var solver faceload.Solver
	s, err := solver.Solve(&faceload.Problem{Meshes: []faceload.Mesh{mesh}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("K_Hβ %.3f over the whole face: %v\n", s.FaceLoadFactor(0), s.ContactFraction(0) == 1)

	mesh.Gap = faceload.Gap(slices, face, faceload.LeadError(face, 0.3))
	s, err = solver.Solve(&faceload.Problem{Meshes: []faceload.Mesh{mesh}})
	if err != nil {
		fmt.Println(err)
		return
	}
	k, share := faceload.FromMisalignment(0.3, mesh.Stiffness, mesh.Force/face)
	fmt.Printf("K_Hβ %.2f, closed form %.2f; in contact %.2f, closed form %.2f\n", s.FaceLoadFactor(0), k, s.ContactFraction(0), share)
	// Output:
	// K_Hβ 1.750 over the whole face: true
	// K_Hβ 3.16, closed form 3.16; in contact 0.63, closed form 0.63
}
