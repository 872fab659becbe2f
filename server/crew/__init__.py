"""What a crew reads: the order of the work, fastening, details, cautions. No prices."""
