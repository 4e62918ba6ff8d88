BEGIN TRANSACTION;
CREATE TABLE alembic_version (
	version_num VARCHAR(32) NOT NULL, 
	CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
);
INSERT INTO "alembic_version" VALUES('0001');
CREATE TABLE board (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	formation VARCHAR NOT NULL, 
	court VARCHAR NOT NULL, 
	level DOUBLE NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_board PRIMARY KEY (id), 
	CONSTRAINT fk_board_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "board" VALUES('YJD7R7j_af2a','bSDUPf2ru2xA','Tuesday practice','five_out','nba',0.9,1795610316);
INSERT INTO "board" VALUES('mKsUHzGmhL2U','UnXFyCzldcnW','Tuesday','five_out','fiba',1.0,1795610317);
CREATE TABLE change (
	board_id VARCHAR NOT NULL, 
	seq INTEGER NOT NULL, 
	message_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	node_id INTEGER NOT NULL, 
	key_id VARCHAR, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_change PRIMARY KEY (board_id, seq), 
	CONSTRAINT fk_change_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_change_key_id_key FOREIGN KEY(key_id) REFERENCES "key" (id), 
	CONSTRAINT fk_change_node_id_node FOREIGN KEY(node_id) REFERENCES node (id), 
	CONSTRAINT uq_change_board_id UNIQUE (board_id, message_id)
);
INSERT INTO "change" VALUES('YJD7R7j_af2a',1,'demo-1','act',2,NULL,1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',2,'demo-2','act',3,NULL,1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',3,'demo-3','act',4,NULL,1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',4,'demo-4','act',5,NULL,1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',5,'m1','setup',6,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',6,'m2','act',7,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',7,'m3','act',8,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',8,'m4','act',9,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',9,'m5','act',10,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',10,'m6','undo',9,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',11,'m7','undo',8,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',12,'m8','redo',9,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',13,'m9','act',10,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',14,'m10','fresh',11,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',15,'m11','setup',12,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',16,'m12','act',13,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',17,'m13','act',14,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',18,'m14','act',15,'bbf2FT6RiazP',1795610316);
INSERT INTO "change" VALUES('YJD7R7j_af2a',19,'m15','undo',14,'bbf2FT6RiazP',1795610317);
INSERT INTO "change" VALUES('mKsUHzGmhL2U',1,'m16','act',17,'thS90Ie2wBbt',1795610317);
INSERT INTO "change" VALUES('mKsUHzGmhL2U',2,'m17','act',18,'thS90Ie2wBbt',1795610317);
INSERT INTO "change" VALUES('mKsUHzGmhL2U',3,'m18','act',19,'thS90Ie2wBbt',1795610317);
CREATE TABLE join_code (
	id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	code_hash VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	expires INTEGER NOT NULL, 
	uses INTEGER NOT NULL, 
	CONSTRAINT pk_join_code PRIMARY KEY (id), 
	CONSTRAINT fk_join_code_board_id_board FOREIGN KEY(board_id) REFERENCES board (id)
);
INSERT INTO "join_code" VALUES('5KzTcO73GIh9','YJD7R7j_af2a','87532ba082b45fa45578b9fba2e04914756c0cd5bad42b5016553610bbd0a015',1795610317,1795610917,0);
CREATE TABLE "key" (
	id VARCHAR NOT NULL, 
	team_id VARCHAR NOT NULL, 
	board_id VARCHAR, 
	link_id VARCHAR, 
	role VARCHAR NOT NULL, 
	secret_hash VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	seen INTEGER NOT NULL, 
	revoked INTEGER, 
	CONSTRAINT pk_key PRIMARY KEY (id), 
	CONSTRAINT ck_key_role CHECK (role IN ('head_coach', 'assistant', 'viewer')), 
	CONSTRAINT fk_key_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_key_link_id_link FOREIGN KEY(link_id) REFERENCES link (id), 
	CONSTRAINT fk_key_team_id_team FOREIGN KEY(team_id) REFERENCES team (id)
);
INSERT INTO "key" VALUES('bbf2FT6RiazP','bSDUPf2ru2xA',NULL,'Jzhd2jj9-GyK','head_coach','d68bad53d7a1bb4b18ee01c4584a2d1498b9f156ded1210c40f4f770e9e1fd16','a device',1795610316,1795610316,NULL);
INSERT INTO "key" VALUES('thS90Ie2wBbt','UnXFyCzldcnW',NULL,NULL,'head_coach','cd29d32625119817f38e5b0181c37e7f6c85c8b6020625bc31bc4972f59195a1','a device',1795610317,1795610317,NULL);
CREATE TABLE link (
	id VARCHAR NOT NULL, 
	board_id VARCHAR NOT NULL, 
	kind VARCHAR NOT NULL, 
	role VARCHAR NOT NULL, 
	token_hash VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	code_id VARCHAR, 
	automatic BOOLEAN NOT NULL, 
	uses INTEGER NOT NULL, 
	made INTEGER NOT NULL, 
	revoked INTEGER, 
	CONSTRAINT pk_link PRIMARY KEY (id), 
	CONSTRAINT ck_link_kind CHECK (kind IN ('view', 'coach')), 
	CONSTRAINT ck_link_role CHECK (role IN ('head_coach', 'assistant', 'viewer')), 
	CONSTRAINT fk_link_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_link_code_id_join_code FOREIGN KEY(code_id) REFERENCES join_code (id), 
	CONSTRAINT uq_link_token_hash UNIQUE (token_hash)
);
INSERT INTO "link" VALUES('Jzhd2jj9-GyK','YJD7R7j_af2a','coach','head_coach','f0c3af3d009f50b2e035392eb7e848e22b63c8eb45c087e63ecf871a9cc01851','this machine',NULL,1,1,1795610316,NULL);
INSERT INTO "link" VALUES('Xe_3MhCIEOHM','YJD7R7j_af2a','view','viewer','d0369d160213909d35acfbdbba938772f90fec80fffec4525e0495c5d7faa4a9','players',NULL,0,0,1795610317,NULL);
INSERT INTO "link" VALUES('ut4NAMFmNawG','YJD7R7j_af2a','view','viewer','d3870bc902ca2c6dab831f44b745d7cc6947ace8ab122828e5a3e011abbab277','turned off',NULL,0,0,1795610317,1795610317);
INSERT INTO "link" VALUES('x9g7J-r4IpX9','mKsUHzGmhL2U','coach','assistant','9cf8b7293b4ffcd9224d56c63892466852963a3cc0196106b6b2cad9a5cac48a','assistant',NULL,0,0,1795610317,NULL);
CREATE TABLE node (
	id INTEGER NOT NULL, 
	board_id VARCHAR NOT NULL, 
	parent_id INTEGER, 
	depth INTEGER NOT NULL, 
	actions VARCHAR NOT NULL, 
	formation VARCHAR, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_node PRIMARY KEY (id), 
	CONSTRAINT fk_node_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_node_parent_id_node FOREIGN KEY(parent_id) REFERENCES node (id)
);
INSERT INTO "node" VALUES(1,'YJD7R7j_af2a',NULL,0,'','five_out',1795610316);
INSERT INTO "node" VALUES(2,'YJD7R7j_af2a',1,1,'pass:right_wing',NULL,1795610316);
INSERT INTO "node" VALUES(3,'YJD7R7j_af2a',2,2,'fill:left_corner pass:top',NULL,1795610316);
INSERT INTO "node" VALUES(4,'YJD7R7j_af2a',3,3,'fill:right_corner drive:left',NULL,1795610316);
INSERT INTO "node" VALUES(5,'YJD7R7j_af2a',4,4,'kick_out:left_corner',NULL,1795610316);
INSERT INTO "node" VALUES(6,'YJD7R7j_af2a',NULL,0,'','four_out_one_in',1795610316);
INSERT INTO "node" VALUES(7,'YJD7R7j_af2a',6,1,'skip:left_wing',NULL,1795610316);
INSERT INTO "node" VALUES(8,'YJD7R7j_af2a',7,2,'fill:left_corner',NULL,1795610316);
INSERT INTO "node" VALUES(9,'YJD7R7j_af2a',8,3,'pass:left_corner',NULL,1795610316);
INSERT INTO "node" VALUES(10,'YJD7R7j_af2a',9,4,'fill:right_slot',NULL,1795610316);
INSERT INTO "node" VALUES(11,'YJD7R7j_af2a',NULL,0,'','four_out_one_in',1795610316);
INSERT INTO "node" VALUES(12,'YJD7R7j_af2a',NULL,0,'','five_out',1795610316);
INSERT INTO "node" VALUES(13,'YJD7R7j_af2a',12,1,'pass:right_wing',NULL,1795610316);
INSERT INTO "node" VALUES(14,'YJD7R7j_af2a',13,2,'fill:left_corner drive:left',NULL,1795610316);
INSERT INTO "node" VALUES(15,'YJD7R7j_af2a',14,3,'kick_out:left_corner',NULL,1795610316);
INSERT INTO "node" VALUES(16,'mKsUHzGmhL2U',NULL,0,'','five_out',1795610317);
INSERT INTO "node" VALUES(17,'mKsUHzGmhL2U',16,1,'pass:left_wing',NULL,1795610317);
INSERT INTO "node" VALUES(18,'mKsUHzGmhL2U',17,2,'fill:right_corner',NULL,1795610317);
INSERT INTO "node" VALUES(19,'mKsUHzGmhL2U',17,2,'post_up:right_block',NULL,1795610317);
CREATE TABLE place (
	board_id VARCHAR NOT NULL, 
	seq INTEGER NOT NULL, 
	root_id INTEGER NOT NULL, 
	cursor_id INTEGER NOT NULL, 
	tip_id INTEGER NOT NULL, 
	CONSTRAINT pk_place PRIMARY KEY (board_id), 
	CONSTRAINT fk_place_board_id_board FOREIGN KEY(board_id) REFERENCES board (id), 
	CONSTRAINT fk_place_cursor_id_node FOREIGN KEY(cursor_id) REFERENCES node (id), 
	CONSTRAINT fk_place_root_id_node FOREIGN KEY(root_id) REFERENCES node (id), 
	CONSTRAINT fk_place_tip_id_node FOREIGN KEY(tip_id) REFERENCES node (id)
);
INSERT INTO "place" VALUES('YJD7R7j_af2a',19,12,14,15);
INSERT INTO "place" VALUES('mKsUHzGmhL2U',3,16,19,19);
CREATE TABLE server_lock (
	id INTEGER NOT NULL, 
	generation INTEGER NOT NULL, 
	CONSTRAINT pk_server_lock PRIMARY KEY (id), 
	CONSTRAINT ck_server_lock_one_row CHECK (id = 1)
);
INSERT INTO "server_lock" VALUES(1,2);
CREATE TABLE team (
	id VARCHAR NOT NULL, 
	name VARCHAR NOT NULL, 
	made INTEGER NOT NULL, 
	CONSTRAINT pk_team PRIMARY KEY (id)
);
INSERT INTO "team" VALUES('bSDUPf2ru2xA','Harbour Herons',1795610316);
INSERT INTO "team" VALUES('UnXFyCzldcnW','Harbour Herons',1795610317);
CREATE INDEX ix_board_team_id ON board (team_id);
CREATE INDEX ix_join_code_board_id ON join_code (board_id);
CREATE INDEX ix_join_code_code_hash ON join_code (code_hash);
CREATE INDEX ix_node_board_id ON node (board_id);
CREATE INDEX ix_node_parent_id ON node (parent_id);
CREATE INDEX ix_link_board_id ON link (board_id);
CREATE INDEX ix_key_link_id ON "key" (link_id);
CREATE INDEX ix_key_team_id ON "key" (team_id);
CREATE INDEX ix_change_node_id ON change (node_id);
COMMIT;
