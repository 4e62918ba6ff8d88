import"./part-5H4HLX5L.js";import"./part-HIDXNURP.js";import"./part-ME4D372Z.js";import"./part-YL622G7E.js";
