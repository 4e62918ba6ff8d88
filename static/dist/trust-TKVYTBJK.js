import"./part-5T4DXA4P.js";import"./part-GKJAZJM3.js";import"./part-YHSOIWGV.js";import"./part-DT73LFWF.js";import"./part-AJJ3ULMT.js";
