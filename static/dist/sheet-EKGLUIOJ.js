import{b as e,d as t}from"./part-YL622G7E.js";t(e().theme);var n=document.getElementById("print");n.hidden=!1;n.addEventListener("click",()=>window.print());
