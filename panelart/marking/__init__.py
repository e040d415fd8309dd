"""What each marking process lays down or takes away, as areas and paths on the face: no files, no pages."""
