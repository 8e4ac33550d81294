package server

// The parts of the Language Server Protocol 3.17 that are spoken here, by their names in
// https://microsoft.github.io/language-server-protocol/specifications/lsp/3.17/specification/

type (
	// A position counts lines from 0, and what both sides agreed on from 0 in its line.
	position struct {
		Line      uint32 `json:"line"`
		Character uint32 `json:"character"`
	}
	textRange struct {
		Start position `json:"start"`
		End   position `json:"end"`
	}
	location struct {
		URI   string    `json:"uri"`
		Range textRange `json:"range"`
	}
	textEdit struct {
		Range   textRange `json:"range"`
		NewText string    `json:"newText"`
	}
	workspaceEdit struct {
		Changes map[string][]textEdit `json:"changes"`
	}
	markup struct {
		Kind  string `json:"kind"`
		Value string `json:"value"`
	}
)

type (
	initializeParams struct {
		RootURI          string `json:"rootUri"`
		WorkspaceFolders []struct {
			URI string `json:"uri"`
		} `json:"workspaceFolders"`
		Capabilities struct {
			General struct {
				PositionEncodings []string `json:"positionEncodings"`
			} `json:"general"`
			Workspace struct {
				DidChangeWatchedFiles struct {
					DynamicRegistration bool `json:"dynamicRegistration"`
				} `json:"didChangeWatchedFiles"`
			} `json:"workspace"`
		} `json:"capabilities"`
	}
	document struct {
		URI     string `json:"uri"`
		Version int32  `json:"version"`
		Text    string `json:"text"`
	}
	// A change without a range replaces the whole text.
	change struct {
		Range *textRange `json:"range"`
		Text  string     `json:"text"`
	}
	changeParams struct {
		Document document `json:"textDocument"`
		Changes  []change `json:"contentChanges"`
	}
	documentParams struct {
		Document document `json:"textDocument"`
	}
	rangeParams struct {
		Document document  `json:"textDocument"`
		Range    textRange `json:"range"`
	}
	placeParams struct {
		Document document `json:"textDocument"`
		Position position `json:"position"`
	}
	referenceParams struct {
		placeParams
		Context struct {
			IncludeDeclaration bool `json:"includeDeclaration"`
		} `json:"context"`
	}
	renameParams struct {
		placeParams
		NewName string `json:"newName"`
	}
	actionParams struct {
		rangeParams
		Context struct {
			Only []string `json:"only"`
		} `json:"context"`
	}
	queryParams struct {
		Query string `json:"query"`
	}
	filesParams struct {
		Changes []struct {
			URI string `json:"uri"`
		} `json:"changes"`
	}
)

type (
	diagnostic struct {
		Range    textRange `json:"range"`
		Severity int       `json:"severity"`
		Code     string    `json:"code"`
		Source   string    `json:"source"`
		Message  string    `json:"message"`
	}
	publishParams struct {
		URI         string       `json:"uri"`
		Version     *int32       `json:"version,omitempty"`
		Diagnostics []diagnostic `json:"diagnostics"`
	}
	codeAction struct {
		Title       string        `json:"title"`
		Kind        string        `json:"kind"`
		Diagnostics []diagnostic  `json:"diagnostics"`
		IsPreferred bool          `json:"isPreferred,omitempty"`
		Edit        workspaceEdit `json:"edit"`
	}
	hover struct {
		Contents markup    `json:"contents"`
		Range    textRange `json:"range"`
	}
	inlayHint struct {
		Position    position `json:"position"`
		Label       string   `json:"label"`
		PaddingLeft bool     `json:"paddingLeft"`
	}
	completionList struct {
		IsIncomplete bool             `json:"isIncomplete"`
		Items        []completionItem `json:"items"`
	}
	completionItem struct {
		Label         string   `json:"label"`
		Kind          int      `json:"kind"`
		Detail        string   `json:"detail,omitempty"`
		Documentation string   `json:"documentation,omitempty"`
		SortText      string   `json:"sortText"`
		FilterText    string   `json:"filterText"`
		TextEdit      textEdit `json:"textEdit"`
	}
	prepared struct {
		Range       textRange `json:"range"`
		Placeholder string    `json:"placeholder"`
	}
	highlight struct {
		Range textRange `json:"range"`
	}
	documentSymbol struct {
		Name           string           `json:"name"`
		Detail         string           `json:"detail,omitempty"`
		Kind           int              `json:"kind"`
		Range          textRange        `json:"range"`
		SelectionRange textRange        `json:"selectionRange"`
		Children       []documentSymbol `json:"children,omitempty"`
	}
	workspaceSymbol struct {
		Name          string   `json:"name"`
		Kind          int      `json:"kind"`
		ContainerName string   `json:"containerName,omitempty"`
		Location      location `json:"location"`
	}
	foldingRange struct {
		StartLine uint32 `json:"startLine"`
		EndLine   uint32 `json:"endLine"`
	}
	semanticTokens struct {
		Data []uint32 `json:"data"`
	}
)

// What the protocol counts from 1.
const (
	completeMethod, completeField, completeClass, completeModule    = 2, 5, 7, 9
	completeValue, completeEnum, completeKeyword, completeFile      = 12, 13, 14, 17
	completeReference, completeConstant, completeEvent              = 18, 21, 23
	symbolField, symbolString, symbolObject, symbolKey, symbolEvent = 8, 15, 19, 20, 24
)

// Errors of the protocol.
const (
	notInitialized = -32002
	requestFailed  = -32803
)
